#include "solver/compound.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

constexpr double kWater = 0.018015;  ///< [kg/mol]

}  // namespace

double dry_molar_mass(const Compound& compound) {
  return compound.molar_mass - compound.water * kWater;
}

std::optional<double> density_at(const Compound& compound, double strength) {
  const auto& x = compound.strengths;
  const auto& y = compound.densities;
  if (x.empty() || x.size() != y.size()) return std::nullopt;
  double from = 0, from_density = kWaterDensity;
  for (std::size_t k = 0; k < x.size(); ++k) {
    if (strength <= x[k])
      return from_density +
             (y[k] - from_density) * (strength - from) / (x[k] - from);
    from = x[k];
    from_density = y[k];
  }
  return from_density;
}

const Compound* find_compound(const std::vector<Compound>& all,
                              const std::string& name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Compound& c) {
        return c.name == name ||
               std::find(c.spellings.begin(), c.spellings.end(), name) !=
                   c.spellings.end();
      });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace thinspot::solver
