#pragma once

#include "solver/case.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::io {

/// The case that a plan started from, as the user has it.
struct DrawnCase {
  std::filesystem::path file;
  std::string text;                    ///< that stands in it
  std::vector<std::string> overrides;  ///< as given to --set
  solver::Case content;                ///< of all that
};

/// A drawing that a case names, to be laid beside the new file.
struct CopiedDrawing {
  std::filesystem::path from;
  std::string name;  ///< by which the new file calls it
};

struct PlannedCase {
  std::string text;  ///< of the new case file
  std::vector<CopiedDrawing> drawings;
};

/// The text of a case file for a planned set-up: the user's own, comments and
/// order kept, with what differs changed in place; a changed line ends with
/// what it was. It was read back and compared: it says what is planned.
/// @param planned  the drawn case but for what a plan changes: places, turns,
///                 shapes and sizes of solids, anodes, shields and thieves that
///                 come and go, settings of supplies, the level, the steps
/// @param name     of the set-up, for the head of the file
/// @throws NoResultError where it changes what cannot be written, or what was
///         written reads otherwise.
/// @throws InputError where the drawn case itself cannot be read any more.
PlannedCase planned_case(const DrawnCase& drawn, const solver::Case& planned,
                         const std::string& name);

}  // namespace thinspot::io
