#pragma once

#include "io/document.hpp"
#include "io/findings.hpp"
#include "io/library_solutions.hpp"
#include "io/table_reader.hpp"
#include "mesh/outline.hpp"
#include "solver/case.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How a case file is read, table by table; one function a table, in the order
// in which they need each other. Used by case_file.cpp alone.
namespace thinspot::io {

/// A file with an outline, read once however many solids it is drawn for.
struct OutlineFile {
  mesh::DrawnOutline outline;
  std::optional<InputError> error;  ///< where it could not be read
};

/// What the functions share.
struct CaseReading {
  const Node& root;
  Findings& findings;
  solver::Case& content;
  std::filesystem::path folder;  ///< of the case file; drawings lie there
  /// Every solid by its address with its face names; none where it cannot be
  /// drawn.
  std::map<std::string, std::vector<std::string>> faces = {};
  /// The whole surface of one part, as near as the file tells it [m2].
  std::optional<double> part_area = {};
  std::map<std::string, OutlineFile> drawings = {};
  std::optional<SolutionEntry> entry = {};  ///< of the solution
  double carried_by_metal = 0;  ///< share of the current, by its ions
};

/// Notes tables that are missing, unknown, or single where they are repeated.
void check_tables(CaseReading& r);

void read_head(CaseReading& r);
void read_tank(CaseReading& r);
void read_solution(CaseReading& r);
/// What the solution can bring to the part. Needs the part.
void derive_limiting_current(CaseReading& r);
void read_rack(CaseReading& r);
/// Needs the rack.
void read_part(CaseReading& r);
void read_wires(CaseReading& r);
void read_clips(CaseReading& r);
/// Clips into their places beside the part, and both once for each place of the
/// rack; before any other solid is read.
void hang_on_rack(CaseReading& r);
void read_anodes(CaseReading& r);
void read_shields(CaseReading& r);
void read_thieves(CaseReading& r);
void read_supply(CaseReading& r);
/// Before the anodes, which name them.
void read_rectifiers(CaseReading& r);
/// The one that an anode is on; notes where that is not told.
std::size_t read_rectifier_of(CaseReading& r, TableReader& anode);
/// What one step sets otherwise. Needs the rectifiers.
void read_rectifiers_of_step(CaseReading& r, TableReader& t,
                             solver::Step& step);
/// The ways in which a supply is set, from any table that has its keys; what is
/// left out stays as it is.
void read_settings(TableReader& table, solver::Supply& supply);

/// An adapter in place of a bench supply; before the settings, which it bounds.
void read_adapter(TableReader& table, solver::Supply& supply);

/// Notes an adapter where a step gives one: it stays what it is.
/// @param where  it belongs, as in "[supply]"
void refuse_adapter(TableReader& table, const std::string& where);
/// Needs the supply and the part's area for what is assumed.
void read_cathode(CaseReading& r);
/// A table of efficiencies is told by what it has at the part's mean current
/// density. Needs the supply and the part's area.
void settle_efficiency(CaseReading& r);
/// Needs the cathode for what is assumed.
void read_floating(CaseReading& r);
/// Needs every solid.
void read_masks(CaseReading& r);
/// Needs anodes, clips and supply.
void read_steps(CaseReading& r);
void read_target(CaseReading& r);
/// A class of a standard in place of a thickness.
void read_target_class(CaseReading& r, TableReader& target);
void read_accuracy(CaseReading& r);
void read_probes(CaseReading& r);
/// Quantities whose errors go together. Needs all quantities.
void read_correlated(CaseReading& r);
/// The keys that a plan may vary, from its table.
/// @param sound  nothing was wrong with the case before its plan
void read_vary(CaseReading& r, TableReader& plan, bool sound);
/// What `thinspot plan` may change. Needs all else.
void read_plan(CaseReading& r);

/// One table of the file; not present() where it is missing or no table.
TableReader open_table(CaseReading& r, std::string_view name);

/// One reader for each [[name]], with addresses like "anode.sheet", unnamed
/// ones by number from 1. Notes names that occur twice.
std::vector<TableReader> open_tables(CaseReading& r, std::string_view name);

/// Last piece of an address: "sheet" of "anode.sheet".
std::string name_in(const TableReader& table);

/// Shape, sizes, flags, place and turn. The outline is tried out.
/// @returns nullopt where it cannot be drawn; why is in the findings.
std::optional<mesh::Solid> read_solid(CaseReading& r, TableReader& table,
                                      mesh::Role role);

/// The same for one beside the part, placed by `at`, or `side` and `gap`; puts
/// it into the section.
/// @returns its place in SectionSpec::solids.
std::optional<std::size_t> read_beside_part(CaseReading& r, TableReader& table,
                                            mesh::Role role);

/// The outline in the file that the table names, as it is drawn there [m].
/// @returns nullopt where there is none; why is in the findings.
std::optional<mesh::Outline> read_drawing(CaseReading& r, TableReader& table);

/// Keeps the names of a solid's faces, once its sizes are settled.
void keep_faces(CaseReading& r, const mesh::Solid& solid);

/// Notes the faces that the solid at an address does not have.
/// @param key  of the table, where they are listed
void check_faces(CaseReading& r, TableReader& table, std::string_view key,
                 const std::vector<std::string>& faces,
                 const std::string& solid);

/// Notes a place or turn that an axisymmetric section does not allow; nothing
/// to check in a planar one.
/// @param place_key  address that the place was given by, as in "part.at"
void check_on_axis(CaseReading& r, const mesh::Solid& solid,
                   const std::string& place_key);

/// The keys of a law, whichever kind. @returns whether it has its slope.
bool read_polarization(TableReader& table, solver::Polarization& law);

/// Whether mass transfer bounds it; needs the solution.
void read_mass_transfer(CaseReading& r, TableReader& table,
                        solver::Polarization& law);

/// Mean current density over the parts, as near as the file tells it [A/m2].
double likely_density(const CaseReading& r);

}  // namespace thinspot::io
