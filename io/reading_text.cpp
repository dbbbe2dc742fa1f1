#include "io/reading_text.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

namespace thinspot::io {

using solver::Reading;

ReadUnit read_unit(Reading::Of of) {
  switch (of) {
    case Reading::Of::voltage: return {"V", "V", 1};
    case Reading::Of::current: return {"A", "A", 1};
    case Reading::Of::mass: return {"g", "g", 1e3};
    case Reading::Of::thickness: return {"µm", "um", 1e6};
    case Reading::Of::ratio: break;
  }
  return {"", "", 1};
}

std::string reading_value_text(Reading::Of of, double value) {
  const ReadUnit unit = read_unit(of);
  const std::string number = digits(unit.factor * value);
  return *unit.name ? fmt::format("{} {}", number, unit.name) : number;
}

std::string read_text(const Reading& r) {
  return fmt::format("{} ± {}", reading_value_text(r.of, r.value),
                     digits(read_unit(r.of).factor * r.plus_minus, 2));
}

std::string reading_name(const Reading& r) {
  const char* of = r.of == Reading::Of::voltage     ? "voltage"
                   : r.of == Reading::Of::current   ? "current"
                   : r.of == Reading::Of::mass      ? "mass"
                   : r.of == Reading::Of::thickness ? "thickness"
                                                    : "ratio of masses";
  std::string name = r.in == Reading::In::panel ? fmt::format("panel, {}", of)
                     : r.in == Reading::In::two_cathodes
                         ? std::string("two cathodes, near over far")
                         : std::string(of);
  if (r.where == Reading::Where::thinnest ||
      r.where == Reading::Where::heaviest)
    name += ", " + r.at + " spot";
  else if (!r.at.empty())
    name += " at " + r.at;
  if (!r.with.empty()) name += fmt::format(", {}", fmt::join(r.with, ", "));
  return name;
}

}  // namespace thinspot::io
