#include "io/library_lists.hpp"

#include "io/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

std::size_t for_each_table(const Node& root, std::string_view name,
                           const std::vector<KeyInfo>& keys, Findings& findings,
                           const std::function<void(TableReader&)>& read) {
  const Node* list = root.find(name);
  if (!list || list->kind != Node::Kind::list || list->items.empty()) {
    findings.add(std::string(name), "is missing",
                 fmt::format("add [[{}]] tables", name));
    return 0;
  }
  for (std::size_t k = 0; k < list->items.size(); ++k) {
    const std::string address = fmt::format("{}.{}", name, k + 1);
    findings.found_at(address, list->items[k].line);
    TableReader t(&list->items[k], address, keys, findings);
    read(t);
  }
  return list->items.size();
}

void refuse_others(const Node& root, const std::vector<std::string>& tables,
                   Findings& findings) {
  for (const Member& m : root.members)
    if (std::find(tables.begin(), tables.end(), m.name) == tables.end()) {
      findings.found_at(m.name, m.value.line);
      findings.add(m.name, "is not a table of this file",
                   "it has " + listed(tables));
    }
}

std::string text_or_empty(TableReader& t, std::string_view key) {
  return t.text(key).value_or("");
}

std::vector<std::string> texts_or_none(TableReader& t, std::string_view key) {
  return t.texts(key).value_or(std::vector<std::string>{});
}

}  // namespace thinspot::io
