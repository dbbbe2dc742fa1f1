#include "io/case_reading.hpp"

#include <fmt/format.h>

namespace thinspot::io {

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
  if (supply.voltage && supply.voltage_limit &&
      supply.voltage->value > *supply.voltage_limit)
    t.wrong("voltage_limit",
            fmt::format("is below the voltage itself, {:.4g} V",
                        supply.voltage->value),
            "at least that, or leave it out");
}

void read_adapter(TableReader& t, solver::Supply& supply) {
  const auto voltage = t.value("adapter_voltage");
  const auto current = t.value("adapter_current");
  if (t.has("adapter_current") && !t.has("adapter_voltage"))
    t.wrong("adapter_current", "stands without adapter_voltage",
            "give that too, as the label says: adapter_voltage = \"9 V\"");
  if (!voltage) return;
  if (supply.voltage)
    t.wrong("adapter_voltage",
            "stands beside voltage, which an adapter with a resistor does not "
            "hold",
            "give the current that is wanted, and the resistor follows; with a "
            "resistor at hand leave this out and give lead_resistance");
  supply.adapter = solver::Adapter{*voltage, current};
}

}  // namespace thinspot::io
