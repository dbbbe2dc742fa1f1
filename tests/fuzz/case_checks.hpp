#pragma once

#include "io/case_file.hpp"

#include <functional>

namespace thinspot::fuzz {

/// Reads a case; where it is one, once more, and asks that both are finite and
/// the same. Drawings would lie in the corpus of outline_csv.
void require_case(const std::function<io::CaseFile()>& read);

/// The case file's place, as messages and drawings know it.
std::string case_place();

}  // namespace thinspot::fuzz
