#include "io/library_list.hpp"

#include "io/document.hpp"
#include "io/findings.hpp"

#include <fmt/format.h>

#include <set>
#include <string>

namespace thinspot::io {

void read_library_list(const std::filesystem::path& file,
                       std::string_view table, const std::vector<KeyInfo>& keys,
                       const std::function<void(TableReader&)>& read_each) {
  const Node root = read_document(file);
  const std::string name(table);
  Findings findings(file.string());
  for (const Member& m : root.members)
    if (m.name != name)
      findings.add(m.name, "is not a table of this file", "[[" + name + "]]");
  const Node* list = root.find(name);
  if (!list || list->kind != Node::Kind::list || list->items.empty()) {
    findings.add(name, "is missing", fmt::format("add [[{}]] tables", name));
    findings.throw_if_any();
    return;
  }
  std::set<std::string> names;
  for (std::size_t k = 0; k < list->items.size(); ++k) {
    const Node& item = list->items[k];
    const std::string address = fmt::format("{}.{}", name, k + 1);
    findings.found_at(address, item.line);
    TableReader t(&item, address, keys, findings);
    read_each(t);
    const Node* own = item.find("name");
    if (own && !names.insert(own->text).second)
      findings.add(address, fmt::format("a second {} has this name", name),
                   "give each its own name");
  }
  findings.throw_if_any();
}

}  // namespace thinspot::io
