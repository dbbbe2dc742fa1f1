#include "io/meter_words.hpp"

#include "io/number_text.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Interval;
using solver::Result;

bool holds_voltage(const solver::CellResult& cell) {
  return cell.limited_by.starts_with("voltage");
}

/// True where the band alone reaches down to half or up to twice the value.
bool half_or_twice_within(double value, const Interval& band) {
  return band.low <= 0.5 * value || band.high >= 2 * value;
}

std::vector<std::string> meter_at_held_current(const Result& result) {
  const solver::CellResult& cell = result.cell;
  std::vector<std::string> lines;
  lines.push_back(fmt::format(
      "At {} A the supply's voltmeter should read about {}.",
      digits(cell.current), banded(cell.voltage, cell.voltage_band, "V")));
  lines.emplace_back(
      "Half of that or less: the current has a shorter way, or more metal is "
      "wetted than entered. Look for anode and part touching, a bare hook, a "
      "part too close to the anode; the part may be getting less than shown.");
  lines.emplace_back(
      "Twice that or more: something holds the current back. Look for a poor "
      "contact, a crusted or half-dry anode, a clogged bag, a solution colder "
      "or weaker than entered.");
  return lines;
}

std::vector<std::string> meter_at_held_voltage(const Result& result) {
  const solver::CellResult& cell = result.cell;
  std::vector<std::string> lines;
  lines.push_back(fmt::format(
      "{} {} V the ammeter should read about {}.",
      cell.limited_by == "voltage limit" ? "Held back by the voltage limit: at"
                                         : "At",
      digits(cell.voltage), banded(cell.current, cell.current_band, "A")));
  lines.emplace_back(
      "Half of that or less: something holds the current back, and the plating "
      "comes out that much thinner. Look for a poor contact, a crusted or "
      "half-dry anode, a clogged bag, a solution colder or weaker than "
      "entered.");
  lines.emplace_back(
      "Twice that or more: the current has a shorter way, or more metal is "
      "wetted than entered. Look for anode and part touching, a bare hook, a "
      "part too close to the anode.");
  return lines;
}

}  // namespace

std::vector<std::string> meter_words(const Result& result) {
  const solver::CellResult& cell = result.cell;
  const bool held = holds_voltage(cell);
  std::vector<std::string> lines =
      held ? meter_at_held_voltage(result) : meter_at_held_current(result);
  if (held ? half_or_twice_within(cell.current, cell.current_band)
           : half_or_twice_within(cell.voltage, cell.voltage_band))
    lines.emplace_back(
        "The inputs are so uncertain that half or twice is possible with "
        "nothing wrong: measure the solution's conductivity first.");
  return lines;
}

}  // namespace thinspot::io
