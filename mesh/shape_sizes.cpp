#include "mesh/shape_sizes.hpp"

#include "mesh/errors.hpp"
#include "mesh/millimetres.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace thinspot::mesh {

namespace {

/// Sums of sizes that fit exactly may miss by the rounding of their units.
constexpr double kRounding = 1e-9;

}  // namespace

double length_of(const Sizes& sizes, std::string_view key) {
  const auto found = sizes.find(key);
  const std::string name(key);
  if (found == sizes.end())
    throw InputError(name, "is missing", "give it, as in \"20 mm\"");
  if (!std::isfinite(found->second))
    throw InputError(name, "is not a number", "a length, as in \"20 mm\"");
  if (found->second <= 0)
    throw InputError(name, in_mm(found->second) + " is no length",
                     "more than 0 mm");
  return found->second;
}

double radius_of(const Sizes& sizes, std::string_view key) {
  const auto found = sizes.find(key);
  if (found == sizes.end()) return 0;
  if (!std::isfinite(found->second) || found->second < 0)
    throw InputError(std::string(key),
                     in_mm(found->second) + " is not a radius",
                     "0 mm for a sharp corner, or more");
  return found->second;
}

void check_fits(std::string_view key, double size, double most,
                const std::string& why) {
  if (size <= most + kRounding * std::abs(size)) return;
  throw InputError(std::string(key),
                   fmt::format("{} does not fit: {}", in_mm(size), why),
                   fmt::format("at most {}", in_mm(std::max(most, 0.0))));
}

void check_below(std::string_view key, double size, double limit,
                 const std::string& why, const std::string& instead) {
  if (size < limit - kRounding * std::abs(limit)) return;
  throw InputError(std::string(key), fmt::format("{} {}", in_mm(size), why),
                   fmt::format("less than {}{}{}", in_mm(limit),
                               instead.empty() ? "" : ", or ", instead));
}

void check_corner_holds(double thickness, double inside, double outside) {
  // Both arcs' centres lie on the corner's diagonal, and so does their
  // shortest distance. Along it, an arc of radius r leaves its sharp corner by
  // r (sqrt 2 - 1), and the sharp corners are sqrt 2 thicknesses apart.
  const double root = std::numbers::sqrt2;
  check_below("outside_radius", outside, inside + thickness * root / (root - 1),
              "cuts through to the inside corner");
}

}  // namespace thinspot::mesh
