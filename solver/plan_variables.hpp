#pragma once

#include "solver/case.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// One thing that a plan moves, between bounds.
struct PlanVariable {
  std::string key;              ///< its address in the case file
  double low = 0, high = 0;     ///< [SI]
  double drawn = 0;             ///< clamped between them [SI]
  double step = 0;              ///< what a ruler can set [SI]
  std::string words;            ///< "gap of the sheet"
  std::string further, nearer;  ///< what more and less of it mean: "sheet
                                ///< farther from the part"
  std::function<void(Case&, double)> set;
};

/// The value at an address of what stands in the tank: a solid's gap, at.x,
/// at.y, turn or size, or the level.
/// @returns nullopt where the case has no such.
std::optional<double> placed_value(const Case& c, const std::string& key);

/// Sets it. A part takes what is bound to it along: clips drawn in their place,
/// probes, stop-off between points.
/// @throws InputError where the case has no such.
void place_value(Case& c, const std::string& key, double value);

/// What a plan may move of a case: as its wishes say, else what follows from
/// tank and part: each anode's distance, the part's height or place, shields
/// and thieves that are drawn. Supplies are none of them.
/// @throws InputError where the wishes name what cannot be moved.
std::vector<PlanVariable> plan_variables(const Case& c);

/// Of every supply's setting, what it may be multiplied with.
struct DriveRange {
  double low = 0.1, high = 5;
};
/// @throws InputError where the wishes bound a supply that is not set so.
DriveRange drive_range(const Case& c);

/// In words, with bounds: "gap of the sheet, 15 mm to 60 mm".
std::string in_words(const PlanVariable& v);

}  // namespace thinspot::solver
