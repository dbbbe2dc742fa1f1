#include "tests/fuzz/case_checks.hpp"

#include "io/planned_pieces.hpp"
#include "tests/fuzz/target.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::fuzz {

namespace {

void require_finite(solver::Case c) {
  for_each_quantity(c, [](const std::string&, solver::Quantity& q) {
    require(std::isfinite(q.value) && std::isfinite(q.plus_minus),
            "quantities are finite");
  });
  for (const mesh::Solid& s : c.section.solids) {
    for (const auto& [name, size] : s.sizes)
      require(std::isfinite(size), "sizes are finite");
    require(s.at.allFinite() && std::isfinite(s.turn), "places are finite");
  }
  require(std::isfinite(total_duration(c)), "durations are finite");
  require(!c.steps.empty(), "there is a step");
}

bool same(const solver::Assumption& a, const solver::Assumption& b) {
  return a.key == b.key && a.value == b.value && a.why == b.why;
}

}  // namespace

std::string case_place() {
  return THINSPOT_SOURCE_DIR "/tests/fuzz/corpus/outline_csv/case.toml";
}

void require_case(const std::function<io::CaseFile()>& read) {
  try {
    const io::CaseFile one = read();
    require_finite(one.content);
    const io::CaseFile two = read();
    require(
        io::first_difference(one.content, two.content).empty() &&
            one.lines == two.lines && one.content.title == two.content.title &&
            one.content.notes == two.content.notes &&
            std::equal(one.content.assumed.begin(), one.content.assumed.end(),
                       two.content.assumed.begin(), two.content.assumed.end(),
                       same),
        "a case that is read twice reads the same");
  } catch (const InputError& error) {
    require_clear(error);
  }
}

}  // namespace thinspot::fuzz
