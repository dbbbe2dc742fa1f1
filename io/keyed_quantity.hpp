#pragma once

#include "solver/case.hpp"

#include <string>

namespace thinspot::io {

/// A quantity as it stands in a case file, "18.3 S/m +- 0.9 S/m".
/// @param key  as for_each_quantity has it
/// @param q    in SI
std::string keyed_quantity_text(const std::string& key,
                                const solver::Quantity& q);

/// Its value alone, "18.3 S/m".
std::string keyed_value_text(const std::string& key, double value);

/// The unit of both, "" where it is a bare number, and a value in it.
std::string keyed_unit(const std::string& key);
double keyed_number(const std::string& key, double value);

/// What a value with its half width is worth: two digits of the latter, and the
/// value to the same place.
solver::Quantity rounded_quantity(const solver::Quantity& q);

}  // namespace thinspot::io
