#pragma once

#include <string>

namespace thinspot::io::cli {

/// A script by which bash completes verbs, options, shapes and files, made from
/// the tables that the help is printed from.
std::string bash_completion();

}  // namespace thinspot::io::cli
