#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Every shape that a starter case can be had for.
std::vector<std::string> starter_names();

/// One line on the starter of a shape, as its case is titled.
std::string starter_title(std::string_view shape);

/// Whether the starter comes with a drawing, a second file.
bool needs_drawing(std::string_view shape);

/// A commented case file that can be solved as it stands.
/// @param shape    one of starter_names()
/// @param file     name of the case file, for the comments
/// @param drawing  name of the drawing beside it, where it needs one
std::string starter_case(std::string_view shape, const std::string& file,
                         const std::string& drawing);

/// The sample drawing that such a case begins with (CSV, in mm).
std::string starter_drawing();

}  // namespace thinspot::io
