#pragma once

#include "io/document.hpp"
#include "solver/case.hpp"

#include <string>
#include <string_view>

// The pieces of planned_case: what a planned case has otherwise than the drawn
// one goes into its document.
namespace thinspot::io {

/// The table at the address of a solid, mask, probe or rectifier, as in
/// "anode.sheet"; nullptr: none.
Node* table_at(Node& root, const std::string& address);

/// Takes one out of its list; those behind it that have no name are called by
/// the number that they had.
void take_out_table(Node& root, const std::string& address);

/// Solids that stay, come or go, and what goes with them: masks, probes.
/// @throws NoResultError where an anode comes that is like none that is drawn.
void put_solids(Node& root, const solver::Case& drawn,
                const solver::Case& planned);

/// A solid's shape, sizes, turn and place, as far as they differ.
/// @param bound  moves with the part, so that a place beside it holds still
void put_solid(Node& table, const mesh::Solid& from, const mesh::Solid& to,
               bool bound);

/// [x, y]; a half that stays is left as it is written.
void put_point(Node& table, std::string_view key, const mesh::Point& from,
               const mesh::Point& to);

/// How long of each is wetted.
void put_wires(Node& root, const solver::Case& drawn,
               const solver::Case& planned);

/// Supply or rectifiers.
void put_supplies(Node& root, const solver::Case& drawn,
                  const solver::Case& planned);

/// What a supply is set to, as far as it differs; keys that exclude each other
/// go.
void put_setting(Node& table, const solver::Supply& from,
                 const solver::Supply& to);

/// The whole list of steps.
void put_steps(Node& root, const solver::Case& drawn,
               const solver::Case& planned);

/// Where a case that was read differs from what was planned, within rounding:
/// an address; "" where they say the same.
std::string first_difference(const solver::Case& planned,
                             const solver::Case& read);

}  // namespace thinspot::io
