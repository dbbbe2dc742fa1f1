#pragma once

#include <string>

namespace thinspot::io::cli {

/// The manual page in roff's man macros, made from the tables that the help is
/// printed from: `thinspot --manual | man -l -`.
std::string manual_page();

}  // namespace thinspot::io::cli
