#include "io/compared_numbers.hpp"

#include "io/number_text.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

double compared_number(double value) {
  if (!std::isfinite(value))
    throw NoResultError(
        "the comparison is unusable: a number in it is not finite");
  return six_digits(value);
}

std::string compared_text(double value) {
  return fmt::format("{:.6g}", compared_number(value));
}

}  // namespace thinspot::io
