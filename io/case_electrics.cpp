#include "io/case_reading.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

// Most that counts as extra-low voltage, ripple-free direct current: IEC 61140,
// from memory.
constexpr double kExtraLow = 60;  // [V]

}  // namespace

void read_adapter(TableReader& t, solver::Supply& supply) {
  const auto voltage = t.value("adapter_voltage");
  const auto rating = t.value("adapter_current");
  if (t.has("adapter_current") && !t.has("adapter_voltage"))
    t.wrong("adapter_current", "is of an adapter whose volts are not given",
            "adapter_voltage = \"9 V\" as its label has it, or leave it out");
  if (!voltage) return;
  if (*voltage > kExtraLow) {
    t.wrong("adapter_voltage",
            fmt::format("is {:.4g} V, above the {:g} V up to which direct "
                        "current counts as extra-low voltage",
                        *voltage, kExtraLow),
            "another adapter: 5 V to 12 V do for nearly any bath");
    return;
  }
  supply.adapter = solver::Adapter{*voltage, rating};
}

void refuse_adapter(TableReader& t, const std::string& where) {
  for (const char* key : {"adapter_voltage", "adapter_current"})
    if (t.has(key))
      t.wrong(key, "is not for a step: the adapter stays the same",
              "put it into " + where);
}

void read_settings(TableReader& t, solver::Supply& supply) {
  std::vector<std::string> given;
  for (const char* key : {"current", "current_density", "voltage"})
    if (t.has(key)) given.emplace_back(key);
  for (std::size_t k = 1; k < given.size(); ++k)
    t.wrong(given[k], fmt::format("{} is given as well", given.front()),
            "give one of the two: the other follows");
  if (!given.empty()) {
    supply.current = t.quantity("current");
    supply.current_density = t.quantity("current_density");
    supply.voltage = t.quantity("voltage");
  }
  if (const auto limit = t.value("voltage_limit")) supply.voltage_limit = limit;
  if (supply.adapter)
    for (const char* key : {"voltage", "voltage_limit"})
      if (t.has(key))
        t.wrong(key,
                "stands beside an adapter, which has no knob: a resistor in "
                "series sets the current",
                "current = \"0.33 A\" in its place, or leave out "
                "adapter_voltage");
  if (supply.voltage && supply.voltage_limit &&
      supply.voltage->value > *supply.voltage_limit)
    t.wrong("voltage_limit",
            fmt::format("is below the voltage itself, {:.4g} V",
                        supply.voltage->value),
            "at least that, or leave it out");
}

}  // namespace thinspot::io
