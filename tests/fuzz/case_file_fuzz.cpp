// The text of a case file.
#include "tests/fuzz/case_checks.hpp"
#include "tests/fuzz/target.hpp"

namespace thinspot::fuzz {

bool one_input(std::string_view bytes) {
  static const std::string place = case_place();
  require_case([&] { return io::read_case_text(bytes, place); });
  return true;
}

}  // namespace thinspot::fuzz
