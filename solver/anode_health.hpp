#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

struct Result;

/// @returns nullptr where the case has none of that name.
const Anode* anode_named(const Case& c, const std::string& name);

/// Above it a soluble anode passivates [A/m2], and where that is from.
struct AnodeLimit {
  Quantity density;
  std::string source;
};

/// The anode's own, else the solution's, else from memory for copper and
/// nickel. @returns nullopt for anodes that do not dissolve and other metals.
std::optional<AnodeLimit> anode_limit(const Case& c, const Anode& anode);

/// By the mean: what an anode's own edges give beyond it is usual.
enum class AnodeState {
  unknown,         ///< no limit is known
  sound,           ///< below the limit's band
  may_passivate,   ///< the mean reaches into the band
  likely_passive,  ///< the mean is above the band
  idle             ///< off or lifted out
};

/// An anode in the last step.
struct AnodeHealth {
  std::string name;
  AnodeState state = AnodeState::unknown;
  std::optional<AnodeLimit> limit;
};

/// Metal in the liquid that nothing is connected to.
struct Bipolar {
  std::string name;
  double span = 0;         ///< of the liquid's potential along it [V]
  bool dissolves = false;  ///< the span is beyond kBipolarSpan
};

/// From this span on metal that hangs unconnected dissolves at one side to be
/// worth a word. Common practice, no source: from memory.
inline constexpr double kBipolarSpan = 0.1;  // [V]

/// Which share of the part lies where the solution usually plates well.
struct InRange {
  double low = 0, high = 0;  ///< [A/m2]
  std::string source;
  double share = 0;  ///< of the parts' area in the last step, 0..1
};

struct Anodes {
  std::vector<AnodeHealth> each;  ///< as Result::anodes
  std::vector<Bipolar> bipolar;   ///< as Result::floating
  /// Wetted area of all anodes at work over that of all cathodes.
  double to_cathode = 0;
};

Anodes anode_health(const Result& result);

/// @returns nullopt where no usual range is known.
std::optional<InRange> share_in_range(const Result& result);

}  // namespace thinspot::solver
