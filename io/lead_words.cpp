#include "io/lead_words.hpp"

#include "io/number_text.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

std::string wire_words(const solver::WireGauge& w, double current) {
  return fmt::format(
      "Leads for {} A: copper of {} mm² or more (AWG {} or lower); {} m each "
      "way lose {} V.",
      digits(current, 2), digits(1e6 * w.area), w.awg, digits(kLeadLength),
      digits(w.drop, 2));
}

std::string resistor_words(const solver::SeriesResistor& r,
                           const solver::Adapter& adapter) {
  return fmt::format(
      "In series with the {} V adapter, which limits no current itself: {} "
      "ohm, for {} W or more; with it flow {}. Were part and anode to touch it "
      "would be {} A.",
      digits(adapter.voltage), digits(r.resistance), digits(r.rating, 2),
      banded(r.current, r.current_band, "A"), digits(r.short_circuit, 2));
}

}  // namespace

Leads leads_for(const solver::Supply& supply, double current, double voltage,
                const solver::Interval& band) {
  Leads leads;
  leads.wire = solver::wire_gauge(current, kLeadLength, kMostLost);
  if (!supply.adapter) return leads;
  const solver::Adapter& adapter = *supply.adapter;
  leads.resistor =
      solver::series_resistor(adapter.voltage, current, voltage, band);
  leads.too_few_volts = !leads.resistor;
  if (adapter.current) {
    leads.overloaded = current > *adapter.current;
    leads.shorts =
        leads.resistor && leads.resistor->short_circuit > *adapter.current;
  }
  return leads;
}

std::vector<std::string> lead_words(const Leads& leads,
                                    const solver::Supply& supply,
                                    double current) {
  std::vector<std::string> lines;
  if (leads.wire)
    lines.push_back(wire_words(*leads.wire, current));
  else
    lines.push_back(fmt::format(
        "{} A are more than flexible leads of up to 16 mm² carry: have the "
        "leads laid out by someone licensed to.",
        digits(current, 2)));
  if (!supply.adapter) return lines;
  const solver::Adapter& adapter = *supply.adapter;
  if (leads.too_few_volts)
    lines.push_back(fmt::format(
        "The {} V adapter has no more volts than the cell takes: the current "
        "will not come about. One of more volts, or anodes nearer.",
        digits(adapter.voltage)));
  if (leads.resistor) lines.push_back(resistor_words(*leads.resistor, adapter));
  if (leads.overloaded)
    lines.push_back(fmt::format(
        "The adapter is rated for {} A, less than the {} A wanted: it gets hot "
        "or cuts out.",
        digits(*adapter.current, 2), digits(current, 2)));
  else if (leads.shorts)
    lines.push_back(fmt::format(
        "A short would draw more than the {} A that the adapter is rated for: "
        "put a fuse of that into the lead.",
        digits(*adapter.current, 2)));
  return lines;
}

}  // namespace thinspot::io
