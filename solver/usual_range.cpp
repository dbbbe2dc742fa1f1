#include "solver/usual_range.hpp"

#include <algorithm>
#include <array>

namespace thinspot::solver {

namespace {

/// 1 A/ft2 [A/m2]: 1/0.3048^2.
constexpr double kPerSquareFoot = 10.763910416709722;

struct Row {
  const char* metal;
  double low, high;           ///< [A/ft2]
  double least_conductivity;  ///< half of what the weakest of these solutions
                              ///< conducts [S/m]; from memory
};

// Metal Finishing Guidebook 2012-13, p. 762, Table I: sulfate copper, nickel,
// sulfate tin, acid zinc, silver, brass, acid gold.
constexpr std::array<Row, 7> table{{{"copper", 15, 50, 8},
                                    {"nickel", 20, 100, 2.5},
                                    {"tin", 10, 40, 5},
                                    {"zinc", 20, 80, 5},
                                    {"silver", 5, 30, 4},
                                    {"brass", 5, 20, 4},
                                    {"gold", 10, 30, 2}}};

std::optional<UsualRange> from_table(const Case& c) {
  const auto row = std::find_if(table.begin(), table.end(), [&](const Row& r) {
    return c.solution.metal.name == r.metal;
  });
  if (row == table.end() ||
      c.solution.conductivity.value < row->least_conductivity)
    return std::nullopt;
  return UsualRange{row->low * kPerSquareFoot, row->high * kPerSquareFoot,
                    "Metal Finishing Guidebook 2012-13, p. 762", true};
}

}  // namespace

std::optional<UsualRange> usual_range(const Case& c) {
  if (c.target.working_range) {
    const auto& [low, high] = *c.target.working_range;
    return UsualRange{low, high, "the case's working range", false};
  }
  std::optional<UsualRange> range =
      c.solution.usual ? c.solution.usual : from_table(c);
  if (range && c.solution.limiting_current_density) {
    const double most =
        kShareOfLimit * c.solution.limiting_current_density->value;
    if (most < range->high) {
      range->high = most;
      range->low = std::min(range->low, most / 4);
      range->source += ", and 0.4 of the limiting current density";
      range->agitated = false;
    }
  }
  return range;
}

}  // namespace thinspot::solver
