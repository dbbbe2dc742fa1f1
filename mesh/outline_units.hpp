#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace thinspot::mesh {

/// Metres of a unit by its name in a table's header ("mm", "in"); empty where
/// the name is none that is known here.
std::optional<double> metres_of_unit(std::string_view name);

/// All names that metres_of_unit knows, for error texts.
std::string known_units();

/// Metres of a drawing unit by the number in a DXF's $INSUNITS.
std::optional<double> metres_of_insunits(int number);

/// Short name of a unit of that many metres; "units" where it has none.
std::string unit_name(double metres);

}  // namespace thinspot::mesh
