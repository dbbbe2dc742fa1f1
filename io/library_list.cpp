#include "io/library_list.hpp"

#include "io/document.hpp"
#include "io/findings.hpp"
#include "io/phrases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

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
                   "it has " + with_or(tables));
    }
}

std::string text_or_empty(TableReader& t, std::string_view key) {
  return t.text(key).value_or("");
}

std::vector<std::string> texts_or_none(TableReader& t, std::string_view key) {
  return t.texts(key).value_or(std::vector<std::string>{});
}

void read_library_list(const std::filesystem::path& file,
                       std::string_view table, const std::vector<KeyInfo>& keys,
                       const std::function<void(TableReader&)>& read_each) {
  const Node root = read_document(file);
  const std::string name(table);
  Findings findings(file.string());
  refuse_others(root, {name}, findings);
  std::set<std::string> names;
  for_each_table(root, table, keys, findings, [&](TableReader& t) {
    read_each(t);
    const std::string own = t.as_written("name");
    if (!own.empty() && !names.insert(own).second)
      findings.add(t.address(), fmt::format("a second {} has this name", name),
                   "give each its own name");
  });
  findings.throw_if_any();
}

}  // namespace thinspot::io
