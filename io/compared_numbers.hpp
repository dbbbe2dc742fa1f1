#pragma once

#include <string>

namespace thinspot::io {

/// A figure of a comparison for its files: six significant digits.
/// @throws NoResultError where it is not finite.
double compared_number(double value);

/// The same as text, "1.23457e-05".
std::string compared_text(double value);

}  // namespace thinspot::io
