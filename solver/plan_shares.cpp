#include "solver/plan_shares.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <stdexcept>

namespace thinspot::solver {

namespace {

constexpr double kWorth = 0.01;
/// Less than this of the whole time is not worth a handling.
constexpr double kLeastShare = 0.05;
/// Places that may be thinnest in turn; each search adds one.
constexpr int kMostPlaces = 20;
constexpr double kSettled = 1e-4;

/// Thickness at a place for all of the time in each step, of what the steps
/// leave at the thinnest place as they are.
using Place = std::vector<double>;

std::vector<Step> with_shares(std::vector<Step> steps,
                              const std::vector<double>& shares) {
  for (std::size_t k = 0; k < steps.size(); ++k)
    steps[k].duration.value = shares[k];
  return steps;
}

/// The last one has what is left. Ends with the thickness that is looked for.
std::vector<double> shares_of(const std::vector<double>& x) {
  std::vector<double> shares(x.begin(), x.end() - 1);
  double left = 1;
  for (double share : shares) left -= share;
  shares.push_back(left);
  return shares;
}

/// By how much a place stays below the thickness that is looked for.
double shortfall(const std::vector<double>& x, std::vector<double>& slope,
                 void* data) {
  const Place& place = *static_cast<const Place*>(data);
  const std::vector<double> shares = shares_of(x);
  double there = 0;
  for (std::size_t k = 0; k < place.size(); ++k) there += place[k] * shares[k];
  if (!slope.empty()) {
    for (std::size_t k = 0; k + 1 < x.size(); ++k)
      slope[k] = place.back() - place[k];
    slope.back() = 1;
  }
  return x.back() - there;
}

double looked_for(const std::vector<double>& x, std::vector<double>& slope,
                  void*) {
  if (!slope.empty()) {
    std::fill(slope.begin(), slope.end(), 0.0);
    slope.back() = 1;
  }
  return x.back();
}

double over_time(const std::vector<double>& x, std::vector<double>& slope,
                 void*) {
  if (!slope.empty()) {
    std::fill(slope.begin(), slope.end(), 1.0);
    slope.back() = 0;
  }
  return kLeastShare - shares_of(x).back();
}

/// Shares for which the thinnest of the places is thickest, and how thick.
std::vector<double> best_for(std::vector<Place>& places,
                             const std::vector<double>& shares) {
  std::vector<double> x(shares.begin(), shares.end() - 1);
  x.push_back(0);
  nlopt::opt opt(nlopt::LD_SLSQP, static_cast<unsigned>(x.size()));
  std::vector<double> low(x.size(), kLeastShare), high(x.size(), 1);
  low.back() = 0;
  high.back() = 1e6;
  opt.set_lower_bounds(low);
  opt.set_upper_bounds(high);
  opt.set_max_objective(looked_for, nullptr);
  for (Place& place : places)
    opt.add_inequality_constraint(shortfall, &place, 1e-9);
  opt.add_inequality_constraint(over_time, nullptr, 1e-9);
  opt.set_xtol_rel(1e-9);
  opt.set_maxeval(200);
  double most = 0;
  opt.optimize(x, most);
  return x;
}

}  // namespace

// Thickness is linear in the shares and its least concave, so that the places
// that were thinnest so far bound it from above: each round finds the best
// shares for them, and the place that is thinnest there joins them.
std::vector<Step> best_shares(Layout& layout, const std::vector<Step>& steps,
                              double factor) {
  const std::size_t n = steps.size();
  if (n < 2 || n > 6) return steps;
  double total = 0;
  for (const Step& step : steps) {
    if (step.turning) return steps;
    total += step.duration.value;
  }
  std::vector<double> shares;
  for (const Step& step : steps) shares.push_back(step.duration.value / total);
  std::vector<Place> places;
  std::vector<double> best = shares;
  double before = 0, most = 0;
  for (int round = 0; round < kMostPlaces; ++round) {
    const double least = layout.yield(with_shares(steps, shares), factor).least;
    const std::vector<double>& parts = layout.parts_of_least();
    if (!(least > 0) || parts.size() != n) break;
    if (round == 0) before = least;
    if (least > most) {
      most = least;
      best = shares;
    }
    Place& place = places.emplace_back(n);
    for (std::size_t k = 0; k < n; ++k)
      place[k] = parts[k] / shares[k] / before;
    std::vector<double> next;
    try {
      next = best_for(places, shares);
    } catch (const std::runtime_error&) {
      break;
    }
    if (!(next.back() * before > (1 + kSettled) * most)) break;
    shares = shares_of(next);
  }
  return most > (1 + kWorth) * before ? with_shares(steps, best) : steps;
}

}  // namespace thinspot::solver
