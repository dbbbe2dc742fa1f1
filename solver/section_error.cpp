#include "solver/section_error.hpp"

#include <array>
#include <cmath>

namespace thinspot::solver {

namespace {

struct Row {
  double wagner, least, largest;
};

constexpr std::array<Row, 9> table{{{0, 0.772, 0.801},
                                    {0.01, 0.783, 0.805},
                                    {0.03, 0.801, 0.812},
                                    {0.1, 0.848, 0.832},
                                    {0.3, 0.914, 0.869},
                                    {1, 0.969, 0.927},
                                    {3, 0.989, 0.968},
                                    {10, 0.997, 0.989},
                                    {100, 1.000, 0.999}}};

double between(double a, double b, double share) { return a + share * (b - a); }

}  // namespace

DiscRatios disc_ratios(double wagner) {
  if (wagner >= table.back().wagner) return {};
  std::size_t k = 1;
  while (table[k].wagner < wagner) ++k;
  const Row& a = table[k - 1];
  const Row& b = table[k];
  const double share =
      k == 1 ? wagner / b.wagner
             : std::log(wagner / a.wagner) / std::log(b.wagner / a.wagner);
  return {between(a.least, b.least, share),
          between(a.largest, b.largest, share)};
}

std::optional<DiscRatios> section_error(const mesh::Section& section,
                                        std::size_t part, double wagner) {
  if (section.cut == mesh::Cut::axisymmetric) return std::nullopt;
  if (section.solids[part].spec.shape != "coin") return std::nullopt;
  return disc_ratios(wagner);
}

}  // namespace thinspot::solver
