#include "solver/system_size.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

namespace thinspot::solver {

namespace {

constexpr double kGibibyte = 1024.0 * 1024 * 1024;
constexpr double kMostBytes = 2 * kGibibyte;

}  // namespace

double bytes_to_iterate(Eigen::Index nodes) {
  return 360.0 * static_cast<double>(nodes);
}

double bytes_to_factor(Eigen::Index nodes) {
  return 1550.0 * static_cast<double>(nodes);
}

bool is_too_large(double bytes) { return bytes > kMostBytes; }

void check_size(double bytes) {
  if (is_too_large(bytes))
    throw NoResultError(fmt::format(
        "the section's system would take about {:.1f} GiB, more than {:.0f}",
        bytes / kGibibyte, kMostBytes / kGibibyte));
}

}  // namespace thinspot::solver
