#pragma once

#include "io/document.hpp"
#include "io/findings.hpp"
#include "io/table_reader.hpp"
#include "solver/case.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How a case file is read, table by table; one function a table, in the order
// in which they need each other. Used by case_file.cpp alone.
namespace thinspot::io {

/// What the functions share.
struct Reading {
  const Node& root;
  Findings& findings;
  solver::Case& content;
  /// Face names of the part as drawn; empty where it cannot be drawn.
  std::vector<std::string> part_faces = {};
  /// The part's whole surface, as near as the file tells it [m2].
  std::optional<double> part_area = {};
};

/// Notes tables that are missing, unknown, or single where they are repeated.
void check_tables(Reading& r);

void read_head(Reading& r);
void read_tank(Reading& r);
void read_solution(Reading& r);
void read_part(Reading& r);
void read_wires(Reading& r);
void read_anodes(Reading& r);
void read_supply(Reading& r);
/// Needs the supply and the part's area for what is assumed.
void read_cathode(Reading& r);
void read_steps(Reading& r);
void read_target(Reading& r);
void read_accuracy(Reading& r);
void read_probes(Reading& r);

/// One table of the file; not present() where it is missing or no table.
TableReader open_table(Reading& r, std::string_view name);

/// One reader for each [[name]], with addresses like "anode.sheet", unnamed
/// ones by number from 1. Notes names that occur twice.
std::vector<TableReader> open_tables(Reading& r, std::string_view name);

/// Last piece of an address: "sheet" of "anode.sheet".
std::string name_in(const TableReader& table);

/// Shape, sizes, flags, place and turn. The outline is tried out.
/// @returns nullopt where it cannot be drawn; why is in the findings.
std::optional<mesh::Solid> read_solid(Reading& r, TableReader& table,
                                      mesh::Role role);

/// Notes a place or turn that an axisymmetric section does not allow; nothing
/// to check in a planar one.
void check_on_axis(Reading& r, TableReader& table, const mesh::Solid& solid);

/// The three keys of a linear law. @returns whether a slope was given.
bool read_polarization(TableReader& table, solver::Polarization& law);

}  // namespace thinspot::io
