#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/reading_cells.hpp"
#include "io/reading_methods.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Reading;
using Of = Reading::Of;

/// "0.62 g / 0.14 g": what both cathodes gained, with how sure it is.
void read_ratio(const ReadingRow& row, const std::string& text, Reading& r) {
  const auto slash = text.find('/');
  if (slash == std::string::npos) {
    const solver::Quantity q =
        cell_quantity("reading", text, Dimension::fraction);
    r.value = q.value;
    r.plus_minus = q.plus_minus;
    return;
  }
  const std::string_view whole = text;
  solver::Quantity mass[2];
  for (std::size_t k = 0; k < 2; ++k)
    mass[k] = cell_quantity(
        "reading",
        trimmed(k == 0 ? whole.substr(0, slash) : whole.substr(slash + 1)),
        Dimension::mass);
  for (const solver::Quantity& q : mass)
    if (!(q.value > 0))
      refuse_cell("reading", in_quotes(text) + ": both gain metal",
                  "near over far, as in 0.62 g / 0.14 g");
  r.value = mass[0].value / mass[1].value;
  double each = 1e-5;  // [kg], a scale that shows 0.01 g
  r.plus_minus_source = "a scale that shows 0.01 g; common practice, no source";
  if (const std::string given = row("plus_minus"); !given.empty()) {
    each = cell_value("plus_minus", given, Dimension::mass, 1e-9, 1);
    r.plus_minus_source.clear();
  }
  const auto share = [&](const solver::Quantity& q) {
    return (q.plus_minus > 0 ? q.plus_minus : each) / q.value;
  };
  r.plus_minus = r.value * std::hypot(share(mass[0]), share(mass[1]));
}

/// What was read, and what was said of how sure it is.
void read_value(const ReadingRow& row, Reading& r) {
  const std::string text = row("reading");
  if (text.empty())
    refuse_cell("reading", "is left out",
                "a number with its unit, as in 1.32 V");
  const Reasonable reason = reasonable(r.of);
  if (r.of == Of::ratio) {
    read_ratio(row, text, r);
  } else {
    const solver::Quantity q = cell_quantity("reading", text, reason.dimension);
    r.value = q.value;
    r.plus_minus = q.plus_minus;
  }
  if (!(r.value >= reason.least) || !(r.value <= reason.most))
    refuse_cell("reading", in_quotes(text) + " is out of range",
                "what makes sense here is a positive reading in a usual unit");
}

/// By the method's name, or the first that reads such a thing.
const ReadingMethod& method_of(const ReadingRow& row, Of of) {
  const std::string name = row("method");
  const ReadingMethod* first = nullptr;
  std::vector<std::string> names;
  for (const ReadingMethod& m : reading_methods()) {
    if (m.of != of) continue;
    if (!first) first = &m;
    if (m.name == name) return m;
    names.emplace_back(m.name);
  }
  if (name.empty() && of != Of::thickness) return *first;
  if (!row("plus_minus").empty()) {
    static const ReadingMethod other = {"", "", Of::voltage, 0, 0, ""};
    return other;
  }
  const auto near = nearest(name, names);
  refuse_cell("method",
              name.empty() ? "is left out, and so is how sure the reading is"
                           : in_quotes(name) + " is not known here",
              near ? fmt::format("is \"{}\" meant?", *near)
                   : with_or(names) + ", or say it under plus_minus");
}

void settle_plus_minus(const ReadingRow& row, Reading& r) {
  const ReadingMethod& method = method_of(row, r.of);
  r.method = method.said.empty() ? row("method") : std::string(method.said);
  const std::string given = row("plus_minus");
  if (!given.empty() && r.of != Of::ratio) {
    if (r.plus_minus > 0)
      refuse_cell("plus_minus", "is said twice", "here or in the reading");
    if (given.ends_with('%'))
      r.plus_minus = r.value * cell_value("plus_minus", given,
                                          Dimension::fraction, 1e-6, 1);
    else
      r.plus_minus = cell_value("plus_minus", given, reasonable(r.of).dimension,
                                1e-12, 1e3);
  } else if (!given.empty() && !(r.plus_minus > 0)) {
    r.plus_minus =
        r.value * cell_value("plus_minus", given, Dimension::fraction, 1e-6, 1);
  }
  if (r.plus_minus > 0) return;
  r.plus_minus = std::max(method.least, method.share * r.value);
  r.plus_minus_source = method.source;
}

}  // namespace

void read_reading_value(const ReadingRow& row, Reading& r) {
  read_value(row, r);
  settle_plus_minus(row, r);
}

}  // namespace thinspot::io
