#include "io/document.hpp"

#include "io/nesting.hpp"
#include "io/quote.hpp"
#include "mesh/errors.hpp"
#include "mesh/whole_file.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <utility>

namespace thinspot::io {

namespace {

/// Characters of what the library says is wrong.
constexpr std::size_t kLongestReason = 120;

[[noreturn]] void refuse(const std::string& place, std::string wrong,
                         std::string mend) {
  Problem problem{"", std::move(wrong), std::move(mend), place};
  throw InputError(std::vector<Problem>{std::move(problem)});
}

int line_of(const toml::source_region& source) {
  return static_cast<int>(source.begin.line);
}

Node plain(const toml::node& node) {
  Node result;
  result.line = line_of(node.source());
  if (const auto* text = node.as_string()) {
    result.kind = Node::Kind::text;
    result.text = text->get();
  } else if (const auto* whole = node.as_integer()) {
    result.kind = Node::Kind::number;
    result.number = static_cast<double>(whole->get());
  } else if (const auto* number = node.as_floating_point()) {
    result.kind = Node::Kind::number;
    result.number = number->get();
  } else if (const auto* flag = node.as_boolean()) {
    result.kind = Node::Kind::flag;
    result.flag = flag->get();
  } else if (const auto* list = node.as_array()) {
    result.kind = Node::Kind::list;
    for (const toml::node& item : *list) result.items.push_back(plain(item));
  } else if (const auto* table = node.as_table()) {
    result.kind = Node::Kind::table;
    for (const auto& [key, value] : *table) {
      Member member{std::string(key.str()), plain(value)};
      member.value.line = line_of(key.source());
      result.members.push_back(std::move(member));
    }
    std::stable_sort(result.members.begin(), result.members.end(),
                     [](const Member& a, const Member& b) {
                       return a.value.line < b.value.line;
                     });
  }
  return result;
}

}  // namespace

const Node* Node::find(std::string_view name) const {
  for (const Member& m : members)
    if (m.name == name) return &m.value;
  return nullptr;
}

Node* Node::find(std::string_view name) {
  for (Member& m : members)
    if (m.name == name) return &m.value;
  return nullptr;
}

Node parse_document(std::string_view text, const std::string& name) {
  if (const int line = line_nested_too_deeply(text))
    refuse(fmt::format("{}:{}", name, line),
           "tables or lists are nested too deeply",
           "a case file needs no more than three levels");
  try {
    return plain(toml::parse(text, name));
  } catch (const toml::parse_error& error) {
    refuse(fmt::format("{}:{}", name, line_of(error.source())),
           printable(error.description(), kLongestReason),
           "mend the TOML there; texts and quantities stand in quotes");
  }
}

std::string document_text(const std::filesystem::path& file,
                          const std::string& meant) {
  using Fault = mesh::WholeFile::Fault;
  const std::string name = file.string();
  mesh::WholeFile whole = mesh::read_whole_file(file, kLargestFile);
  switch (whole.fault) {
    case Fault::none: break;
    case Fault::absent:
      refuse(name, "there is no such file", "check the name and the folder");
    case Fault::special:
      refuse(name, "is not an ordinary file", "give " + meant);
    case Fault::unreadable:
      refuse(name, "cannot be read", "check the permissions of the file");
    case Fault::changing:
      refuse(name, "changes while it is read",
             "wait until it is written to its end");
    case Fault::too_large:
      refuse(name, "is larger than 1 MB", meant + " takes a few kilobytes");
  }
  return std::move(whole.bytes);
}

Node read_document(const std::filesystem::path& file) {
  const std::string name = file.string();
  Node root = parse_document(document_text(file), name);
  if (root.members.empty())
    refuse(name, "says nothing", "start from a copy of one of the cases");
  return root;
}

}  // namespace thinspot::io
