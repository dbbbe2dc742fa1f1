#include "io/meter_words.hpp"

#include "io/number_text.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Interval;
using solver::Result;

constexpr const char* kTooUncertain =
    "The inputs are so uncertain that half or twice is possible with nothing "
    "wrong: measure the solution's conductivity first.";

constexpr const char* kBeforeCurrent =
    "With the part still out, a voltmeter with red on the anode and black on "
    "its "
    "clip must show plus: reversed leads dissolve it and read much the same.";

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
      "wetted than entered. Look for a short between anode and part, a bare "
      "hook, a clip on the wrong lead; the part may be getting less than "
      "shown.");
  lines.emplace_back(
      "Twice that or more: look for a poor contact, a passive anode (dark, "
      "gassing), a crusted one, a clogged bag, a solution colder or weaker "
      "than "
      "entered.");
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
      "comes out that much thinner. Look for a poor contact, a passive anode "
      "(dark, gassing), a crusted or half-dry "
      "one, a clogged bag, a solution colder or weaker than entered.");
  lines.emplace_back(
      "Twice that or more: the current has a shorter way, or more metal is "
      "wetted than entered. Look for a short between anode and part, a bare "
      "hook, a part too close to the anode, or a clip on the wrong lead.");
  return lines;
}

std::string at_rectifier(const solver::RectifierResult& r) {
  if (r.limited_by == "idle")
    return fmt::format("Rectifier {}: none of its anodes is at work.", r.name);
  if (r.limited_by == "blocked")
    return fmt::format(
        "Rectifier {} gives nothing: the others drive its anodes to {} V, "
        "beyond what it is set to.",
        r.name, digits(r.voltage));
  if (r.limited_by.starts_with("voltage"))
    return fmt::format(
        "Rectifier {}{} {} V, where its ammeter should read about {}.", r.name,
        r.limited_by == "voltage limit" ? " is held back by its limit of"
                                        : ": at",
        digits(r.voltage), banded(r.current, r.current_band, "A"));
  return fmt::format(
      "Rectifier {}: at {} A its voltmeter should read about {}.", r.name,
      digits(r.current), banded(r.voltage, r.voltage_band, "V"));
}

std::vector<std::string> meters_of_rectifiers(const solver::CellResult& cell) {
  std::vector<std::string> lines;
  bool uncertain = false;
  for (const solver::RectifierResult& r : cell.rectifiers) {
    lines.push_back(at_rectifier(r));
    if (r.limited_by == "idle" || r.limited_by == "blocked") continue;
    uncertain = uncertain || half_or_twice_within(r.voltage, r.voltage_band) ||
                half_or_twice_within(r.current, r.current_band);
  }
  lines.emplace_back(
      "A voltmeter at half of that, or an ammeter at twice: the current has a "
      "shorter way, or more metal is wetted than entered. Look for a short "
      "between anode and part, a bare hook, a part too close to an anode, or a "
      "clip on the wrong lead.");
  lines.emplace_back(
      "A voltmeter at twice that, or an ammeter at half: something holds the "
      "current back. Look for a poor contact, a passive anode (dark, gassing), "
      "a crusted or half-dry one, a "
      "clogged bag, a solution colder or weaker than entered.");
  lines.emplace_back(kBeforeCurrent);
  if (uncertain) lines.emplace_back(kTooUncertain);
  return lines;
}

}  // namespace

std::vector<std::string> meter_words(const Result& result) {
  const solver::CellResult& cell = result.cell;
  if (!cell.rectifiers.empty()) return meters_of_rectifiers(cell);
  const bool held = holds_voltage(cell);
  std::vector<std::string> lines =
      held ? meter_at_held_voltage(result) : meter_at_held_current(result);
  lines.emplace_back(kBeforeCurrent);
  if (held ? half_or_twice_within(cell.current, cell.current_band)
           : half_or_twice_within(cell.voltage, cell.voltage_band))
    lines.emplace_back(kTooUncertain);
  return lines;
}

}  // namespace thinspot::io
