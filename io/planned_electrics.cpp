#include "io/planned_pieces.hpp"
#include "io/quantity_text.hpp"
#include "io/toml_value.hpp"

#include <algorithm>

namespace thinspot::io {

using solver::Case;
using solver::Supply;

void put_setting(Node& table, const Supply& from, const Supply& to) {
  const auto put = [&](const char* key, const auto& was, const auto& is,
                       auto text) {
    if (!is)
      drop_key(table, key);
    else if (was != is || !table.find(key))
      put_key(table, key, text_node(text(*is)));
  };
  put("current", from.current, to.current, current_text);
  put("current_density", from.current_density, to.current_density,
      density_text);
  put("voltage", from.voltage, to.voltage, voltage_text);
  if (from.voltage_limit == to.voltage_limit) return;
  drop_key(table, "voltage_limit");
  if (to.voltage_limit)
    put_key(table, "voltage_limit",
            text_node(voltage_text({*to.voltage_limit, 0})));
}

void put_supplies(Node& root, const Case& drawn, const Case& planned) {
  if (!(drawn.supply == planned.supply))
    if (Node* table = root.find("supply"))
      put_setting(*table, drawn.supply, planned.supply);
  const std::size_t count =
      std::min(drawn.rectifiers.size(), planned.rectifiers.size());
  for (std::size_t k = 0; k < count; ++k) {
    const solver::Rectifier& from = drawn.rectifiers[k];
    const solver::Rectifier& to = planned.rectifiers[k];
    Node* const table = table_at(root, "rectifier." + from.name);
    if (table && !(from.supply == to.supply))
      put_setting(*table, from.supply, to.supply);
  }
}

void put_wires(Node& root, const Case& drawn, const Case& planned) {
  const std::size_t count = std::min(drawn.wires.size(), planned.wires.size());
  for (std::size_t k = 0; k < count; ++k) {
    const double wetted = planned.wires[k].wetted;
    if (wetted == drawn.wires[k].wetted) continue;
    if (Node* const table = table_at(root, "wire." + drawn.wires[k].name))
      put_key(*table, "wetted", text_node(length_text(wetted)));
  }
}

}  // namespace thinspot::io
