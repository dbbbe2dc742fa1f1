#include "io/case_reading.hpp"

#include "io/addresses.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace thinspot::io {

namespace {

std::string bracketed(const TableInfo& info) {
  return info.repeated ? fmt::format("[[{}]]", info.name)
                       : fmt::format("[{}]", info.name);
}

std::string required_keys(const TableInfo& info) {
  std::vector<std::string> keys;
  for (const KeyInfo& key : info.keys)
    if (key.required) keys.emplace_back(key.name);
  return keys.empty() ? ""
                      : " with " + fmt::format("{}", fmt::join(keys, ", "));
}

bool is_list_of_tables(const Node& node) {
  if (node.kind != Node::Kind::list) return false;
  for (const Node& item : node.items)
    if (item.kind != Node::Kind::table) return false;
  return true;
}

void check_kind(CaseReading& r, const TableInfo& info) {
  const std::string name(info.name);
  const Node* found = r.root.find(name);
  if (!found ||
      (info.repeated && is_list_of_tables(*found) && found->items.empty())) {
    if (info.needed)
      r.findings.add(name, "is missing",
                     "add " + bracketed(info) + required_keys(info));
    return;
  }
  r.findings.found_at(name, found->line);
  const bool right = info.repeated ? is_list_of_tables(*found)
                                   : found->kind == Node::Kind::table;
  if (!right)
    r.findings.add(name, "is not a table of the right kind",
                   "write it as " + bracketed(info));
  else if (info.repeated && found->items.size() > info.most)
    r.findings.add(name,
                   fmt::format("{} tables {}, more than can be taken",
                               found->items.size(), bracketed(info)),
                   info.most == 1 ? "leave one; several are not there yet"
                                  : fmt::format("at most {}", info.most));
}

}  // namespace

void check_tables(CaseReading& r) {
  std::vector<std::string> names;
  for (const TableInfo& info : case_tables()) {
    if (!info.name.empty()) {
      check_kind(r, info);
      names.emplace_back(info.name);
    } else {
      for (const KeyInfo& key : info.keys) names.emplace_back(key.name);
    }
  }
  for (const Member& m : r.root.members) {
    if (std::find(names.begin(), names.end(), m.name) != names.end()) continue;
    const std::string shown =
        is_printable(m.name, 40) ? m.name : in_quotes(m.name);
    r.findings.found_at(shown, m.value.line);
    const auto near = nearest(m.name, names);
    r.findings.add(shown, "is not a table or key of a case file",
                   near ? fmt::format("is \"{}\" meant?", *near)
                        : "known are " + with_or(names));
  }
}

TableReader open_table(CaseReading& r, std::string_view name) {
  const TableInfo& info = table_info(name);
  const Node* found = r.root.find(name);
  if (found && found->kind != Node::Kind::table) found = nullptr;
  const Node* shape = found ? found->find("shape") : nullptr;
  return {found, std::string(name),
          keys_with_shape(info, shape ? shape->text : ""), r.findings};
}

std::vector<TableReader> open_tables(CaseReading& r, std::string_view name) {
  std::vector<TableReader> readers;
  const TableInfo& info = table_info(name);
  const Node* found = r.root.find(name);
  if (!found || !is_list_of_tables(*found) || found->items.size() > info.most)
    return readers;
  std::set<std::string> addresses;
  for (std::size_t k = 0; k < found->items.size(); ++k) {
    const Node& element = found->items[k];
    std::string address = fmt::format("{}.{}", name, element_name(element, k));
    if (!addresses.insert(address).second) {
      const std::string taken = address;
      address = fmt::format("{}.{}", name, k + 1);
      r.findings.add(address + ".name", taken + " is there already",
                     "give each its own name");
    }
    r.findings.found_at(address, element.line);
    const Node* shape = element.find("shape");
    readers.emplace_back(&element, address,
                         keys_with_shape(info, shape ? shape->text : ""),
                         r.findings);
  }
  return readers;
}

std::string name_in(const TableReader& table) {
  return table.address().substr(table.address().find('.') + 1);
}

}  // namespace thinspot::io
