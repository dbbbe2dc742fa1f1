#include "solver/acidity.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

// Charges of hydrogen or hydroxide ions in a litre at which the words change;
// one class spans two units of pH, so the activity does not matter.
constexpr double kStrong = 100;  // [mol/m3]
constexpr double kSome = 1;
constexpr double kTrace = 0.01;

bool has(const std::vector<Dose>& doses, Acidity acidity) {
  return std::any_of(doses.begin(), doses.end(), [&](const Dose& d) {
    return d.compound->acidity == acidity && d.concentration > kTrace;
  });
}

/// Ions of strong acids less those of strong bases [mol/m3].
double free_acid(const std::vector<Dose>& doses) {
  double sum = 0;
  for (const Dose& d : doses) {
    // Of sulfuric acid the first hydrogen ion alone is free in a crowd.
    if (d.compound->acidity == Acidity::strong_acid) sum += d.concentration;
    if (d.compound->acidity == Acidity::strong_base)
      sum -= d.concentration * d.compound->cations;
  }
  return sum;
}

}  // namespace

std::string acidity_of(const std::vector<Dose>& doses) {
  const double acid = free_acid(doses);
  if (acid > kStrong) return "strongly acid, pH below 1";
  if (acid > kSome) return "acid, pH about 1 to 3";
  if (acid < -kStrong) return "strongly alkaline, pH above 13";
  if (acid < -kSome) return "alkaline, pH about 11 to 13";
  const bool weak_acid = has(doses, Acidity::weak_acid);
  const bool weak_base = has(doses, Acidity::weak_base);
  if (weak_acid && weak_base)
    return "between weakly acid and weakly alkaline: test it";
  if (weak_acid) return "weakly acid, pH about 2 to 5";
  if (weak_base) return "weakly alkaline, pH about 9 to 12";
  if (has(doses, Acidity::acid_salt)) return "weakly acid, pH about 3 to 6";
  return "about neutral, pH 5 to 8";
}

}  // namespace thinspot::solver
