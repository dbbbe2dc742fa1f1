#include "solver/polarization.hpp"

#include "solver/deposit.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

/// Exponents beyond this are of no electrode, and exp would overflow.
constexpr double kMostExponent = 600;

double bounded_exp(double x) {
  return std::exp(std::clamp(x, -kMostExponent, kMostExponent));
}

}  // namespace

LawCurve::LawCurve(const Polarization& p, const Solution& solution,
                   std::optional<double> limiting)
    : law_(p.law),
      curved_(p.law != Law::linear || limiting.has_value()),
      resistance_(p.resistance.value),
      exchange_(p.exchange_current_density.value),
      slope_(p.tafel_slope.value / std::numbers::ln10),
      reverse_(p.reverse_tafel_slope.value / std::numbers::ln10),
      inverse_limit_(limiting ? 1 / *limiting : 0),
      concentration_(kGasConstant * solution.temperature /
                     (std::max(solution.metal.electrons, 1) * kFaraday)) {}

LawCurve::Point LawCurve::at(double over) const {
  return law_ == Law::linear ? linear_at(over) : exponential_at(over);
}

LawCurve::Point LawCurve::linear_at(double over) const {
  if (inverse_limit_ == 0) return {over / resistance_, 1 / resistance_};
  // In s = -ln(1 - i/iL): R iL (1 - exp(-s)) + c s = over, concave, so that
  // Newton's method from the left never overshoots.
  const double ohmic = resistance_ / inverse_limit_;
  double s = over / (ohmic + concentration_);
  if (over < 0) s = std::max(s, -std::log1p(-over / ohmic));
  for (int k = 0; k < 60; ++k) {
    const double e = bounded_exp(-s);
    const double step = (over - ohmic * (1 - e) - concentration_ * s) /
                        (ohmic * e + concentration_);
    s += step;
    if (std::abs(step) <= 1e-15 * (1 + std::abs(s))) break;
  }
  const double e = bounded_exp(-s);
  return {-std::expm1(-s) / inverse_limit_,
          e / inverse_limit_ / (ohmic * e + concentration_)};
}

LawCurve::Point LawCurve::exponential_at(double over) const {
  // By E, so that nothing overflows where the limit holds.
  const double q = bounded_exp(-over / slope_);
  const double below = q + exchange_ * inverse_limit_;
  if (law_ == Law::tafel)
    return {exchange_ / below, exchange_ * q / (slope_ * below * below)};
  const double r = bounded_exp(-over / slope_ - over / reverse_);
  return {exchange_ * (1 - r) / below,
          exchange_ *
              (r * (1 / slope_ + 1 / reverse_) * below + (1 - r) * q / slope_) /
              (below * below)};
}

LawCurve::ByNumbers LawCurve::by_numbers(double over) const {
  ByNumbers by;
  if (law_ == Law::linear) {
    const Point p = linear_at(over);
    by.resistance = -p.density * p.slope;
    const double room = 1 - p.density * inverse_limit_;
    if (inverse_limit_ > 0)
      by.limit = concentration_ * p.density * inverse_limit_ * inverse_limit_ /
                 (resistance_ * room + concentration_ * inverse_limit_);
    return by;
  }
  // Of i = i0 (1 - r) / (q + i0/iL), as in exponential_at.
  const bool both = law_ == Law::butler_volmer;
  const double q = bounded_exp(-over / slope_);
  const double r = both ? bounded_exp(-over / slope_ - over / reverse_) : 0;
  const double below = q + exchange_ * inverse_limit_;
  const double square = below * below;
  const double by_slope = over / (slope_ * slope_);
  by.exchange = (1 - r) * q / square;
  by.slope = -exchange_ * by_slope * (r * below + (1 - r) * q) / square /
             std::numbers::ln10;
  if (both)
    by.reverse = -exchange_ * r * over / (reverse_ * reverse_) / below /
                 std::numbers::ln10;
  const double share = exchange_ * inverse_limit_;
  by.limit = (1 - r) * share * share / square;
  return by;
}

std::optional<double> LawCurve::over(double density) const {
  const double share = density * inverse_limit_;
  if (share >= 1) return std::nullopt;
  if (law_ == Law::linear)
    return resistance_ * density - concentration_ * std::log1p(-share);
  if (law_ == Law::tafel) {
    if (density <= 0) return std::nullopt;
    return -slope_ * std::log(exchange_ / density - exchange_ * inverse_limit_);
  }
  // Between the laws of the two directions alone the curve is monotone.
  double low = -1, high = 1;
  while (at(low).density > density && low > -64) low *= 2;
  while (at(high).density < density && high < 64) high *= 2;
  double x =
      std::clamp(density > 0 ? slope_ * std::log1p(density / exchange_)
                             : -reverse_ * std::log1p(-density / exchange_),
                 low, high);
  for (int k = 0; k < 200; ++k) {
    const Point p = at(x);
    (p.density < density ? low : high) = x;
    const double next = x + (density - p.density) / p.slope;
    const double before = x;
    x = next > low && next < high ? next : 0.5 * (low + high);
    if (std::abs(x - before) <= 1e-15 * (std::abs(x) + slope_)) break;
  }
  return x;
}

double LawCurve::limited_step(double from, double to) const {
  const double bend = law_ == Law::linear ? concentration_ : slope_;
  const double step = to - from;
  if (std::abs(step) <= bend) return to;
  // Where an exponential is as high as its tangent there.
  return from +
         std::copysign(bend * (1 + std::log(std::abs(step) / bend)), step);
}

std::optional<double> limit_for(const Polarization& p, const Solution& s,
                                bool anode) {
  if (anode || !p.mass_transfer) return std::nullopt;
  if (!s.limiting_current_density) return std::nullopt;
  return s.limiting_current_density->value;
}

Polarization linearized(const Polarization& p, const Solution& solution,
                        bool anode, double density) {
  const auto limit = limit_for(p, solution, anode);
  const LawCurve curve(p, solution, limit);
  if (!curve.curved()) return p;
  if (limit) density = std::min(density, 0.95 * *limit);
  const double over = curve.over(density).value_or(0);
  const double resistance = 1 / curve.at(over).slope;
  Polarization line;
  line.resistance.value = resistance;
  line.at = density;
  line.offset.value = p.offset.value + over - resistance * density;
  return line;
}

namespace {

bool curved(const Polarization& p, const Solution& s, bool anode) {
  return LawCurve(p, s, limit_for(p, s, anode)).curved();
}

}  // namespace

bool has_curved_laws(const Case& c) {
  return curved(c.cathode, c.solution, false) ||
         std::any_of(c.anodes.begin(), c.anodes.end(),
                     [&](const Anode& a) {
                       return curved(a.polarization, c.solution, true);
                     }) ||
         std::any_of(c.thieves.begin(), c.thieves.end(), [&](const Thief& t) {
           return t.polarization && curved(*t.polarization, c.solution, false);
         });
}

std::optional<double> set_density(const Case& c, double area) {
  const auto of = [&](const Supply& s) -> std::optional<double> {
    if (s.current_density) return s.current_density->value;
    if (s.current) return s.current->value / area;
    return std::nullopt;
  };
  if (c.rectifiers.empty()) return of(c.supply);
  double sum = 0;
  for (const Rectifier& r : c.rectifiers) {
    const auto own = of(r.supply);
    if (!own) return std::nullopt;
    sum += *own;
  }
  return sum;
}

Case with_linear_laws(Case c, double cathodes, double anodes) {
  const double density = set_density(c, cathodes).value_or(kUsualDensity);
  c.cathode = linearized(c.cathode, c.solution, false, density);
  for (Thief& t : c.thieves)
    if (t.polarization)
      t.polarization = linearized(*t.polarization, c.solution, false, density);
  for (Anode& a : c.anodes)
    a.polarization = linearized(a.polarization, c.solution, true,
                                density * cathodes / anodes);
  return c;
}

}  // namespace thinspot::solver
