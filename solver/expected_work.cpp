#include "solver/expected_work.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

// All over what solving a step takes, mesh and its refinement included.

constexpr double kWatching = 0.65;
constexpr double kGrowing = 6;
/// Another answer on a mesh that is there: where one factor of a large matrix
/// is asked again, and where the response is small, as it is for angles that
/// share a mesh and where growth is affordable.
constexpr double kAnswer = 0.12, kSmallAnswer = 0.03;
/// Answers that the appraisal asks for, and those of them for a sum of layers.
constexpr double kOfMeaning = 4.5, kOfWhy = 3.5;

bool turns(const Case& c) {
  return std::any_of(c.steps.begin(), c.steps.end(),
                     [](const Step& s) { return s.turning.has_value(); });
}

double answer(const Case& c) {
  return c.growth || turns(c) ? kSmallAnswer : kAnswer;
}

double steps_of(const Case& c) { return static_cast<double>(c.steps.size()); }

double ends_of_quantities(Case c) {
  double count = 0;
  for_each_quantity(c, [&](const std::string&, const Quantity& q) {
    count += q.plus_minus > 0 ? 2 : 0;
  });
  return count;
}

}  // namespace

ExpectedWork expected_work(const Case& c) {
  const double steps = steps_of(c);
  ExpectedWork w;
  w.solving = steps;
  if (steps > 1 || turns(c)) w.watching = kWatching * steps;
  if (c.growth) w.growing = kGrowing * steps;
  w.bands = ends_of_quantities(c) * answer(c) * steps;
  w.meaning = kOfMeaning * answer(c) * steps;
  return w;
}

ExpectedWork work_of_sum(const std::vector<Case>& layers) {
  ExpectedWork w;
  for (const Case& c : layers) {
    w.watching += kWatching * steps_of(c);
    w.bands += ends_of_quantities(c) * answer(c) * steps_of(c);
    w.meaning += kOfWhy * answer(c) * steps_of(c);
  }
  return w;
}

}  // namespace thinspot::solver
