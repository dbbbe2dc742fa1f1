#include "io/adapter_words.hpp"

#include "io/number_text.hpp"
#include "mesh/digits.hpp"
#include "solver/adapter.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Adapter;
using solver::Interval;
using solver::SeriesResistor;

/// One supply at work.
struct AtWork {
  std::string name;  ///< of several; else empty
  const Adapter* adapter = nullptr;
  double current = 0;     ///< [A]
  double voltage = 0;     ///< [V]
  Interval voltage_band;  ///< [V]
};

/// Of the adapter itself: does its rating carry what flows, and a short?
std::string rating_words(const Adapter& adapter, const SeriesResistor& r) {
  if (!adapter.current)
    return fmt::format(" The adapter must be rated for {} A or more.",
                       digits(r.short_circuit, 2));
  const std::string rated = digits(*adapter.current, 2);
  if (*adapter.current < r.current)
    return fmt::format(
        " The adapter is rated for {} A, which is too little: it gets hot or "
        "gives way. Take a larger one, or less current.",
        rated);
  if (*adapter.current < r.short_circuit)
    return fmt::format(
        " Its rating of {} A carries that, but not the short circuit: fuse it.",
        rated);
  return fmt::format(" Its rating of {} A suffices.", rated);
}

std::string too_weak(const AtWork& s) {
  return fmt::format(
      "An adapter of {} V cannot drive {} A: the cell alone takes about {} V. "
      "One of more volts, a smaller gap, or less current.",
      digits(s.adapter->voltage), digits(s.current), digits(s.voltage, 2));
}

std::string resistor_words(const AtWork& s) {
  const auto r = solver::series_resistor(s.adapter->voltage, s.current,
                                         s.voltage, s.voltage_band);
  if (!r) return too_weak(s);
  std::string text = fmt::format(
      "The {} V adapter limits no current: put {} ohm in series ({} ohm would "
      "be exact), made for {} W or more, since it takes {} W and gets hot. "
      "Then {} flows, and {} A where the clips touch.",
      digits(s.adapter->voltage), digits(r->resistance), digits(r->exact),
      digits(r->rating, 2), digits(r->heat, 2),
      banded(r->current, r->current_band, "A"), digits(r->short_circuit, 2));
  text += rating_words(*s.adapter, *r);
  if (s.voltage_band.high >= s.adapter->voltage)
    text +=
        " The cell may take all of the adapter's volts: measure before you "
        "trust this.";
  return text;
}

std::string wire_words(double current) {
  const auto wire = solver::wire_gauge(current, kLeadLength, kMostDrop);
  if (!wire)
    return fmt::format(
        "{} A asks for more than 16 mm² of copper: several leads side by side.",
        digits(current));
  return fmt::format(
      "Leads: copper, {} mm² (AWG {}) or more; {} m each way loses {} V.",
      digits(1e6 * wire->area), wire->awg, digits(kLeadLength),
      digits(wire->drop, 2));
}

void speak(const AtWork& s, std::vector<std::string>& lines) {
  if (!(s.current > 0)) return;
  const std::string start =
      s.name.empty() ? "" : fmt::format("Rectifier {}: ", s.name);
  if (s.adapter) lines.push_back(start + resistor_words(s));
  lines.push_back(start + wire_words(s.current));
}

const Adapter* adapter_of(const solver::Supply& s) {
  return s.adapter ? &*s.adapter : nullptr;
}

}  // namespace

std::vector<std::string> supply_words(const solver::Result& result) {
  std::vector<std::string> lines;
  const solver::CellResult& cell = result.cell;
  if (cell.rectifiers.empty())
    speak({"", adapter_of(result.used.supply), cell.current, cell.voltage,
           cell.voltage_band},
          lines);
  for (std::size_t k = 0; k < cell.rectifiers.size(); ++k) {
    const solver::RectifierResult& r = cell.rectifiers[k];
    speak({r.name, adapter_of(result.used.rectifiers.at(k).supply), r.current,
           r.voltage, r.voltage_band},
          lines);
  }
  return lines;
}

std::vector<std::string> supply_words(const solver::Inspection& i,
                                      const solver::Case& c) {
  std::vector<std::string> lines;
  const auto band = [](const auto& estimate) {
    return estimate.by_voltage ? Interval{estimate.voltage, estimate.voltage}
                               : estimate.range;
  };
  if (c.rectifiers.empty())
    speak({"", adapter_of(c.supply), i.cell.current, i.cell.voltage,
           band(i.cell)},
          lines);
  for (std::size_t k = 0; k < c.rectifiers.size(); ++k) {
    const solver::RectifierEstimate& e = i.cell.rectifiers.at(k);
    speak({c.rectifiers[k].name, adapter_of(c.rectifiers[k].supply), e.current,
           e.voltage, band(e)},
          lines);
  }
  return lines;
}

}  // namespace thinspot::io
