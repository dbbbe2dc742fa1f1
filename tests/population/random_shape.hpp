#pragma once

#include "lot.hpp"

#include <string>

namespace thinspot::tests {

/// A length as a case file has it. @param metres
std::string mm(double metres);

/// The keys of a shape and its sizes, lines of a table.
/// @param size  largest extent, about [m]
/// @param thin  thickness over that
/// @param stands_on_axis  of an axisymmetric section
std::string random_shape(Lot& lot, double size, double thin,
                         bool stands_on_axis);

}  // namespace thinspot::tests
