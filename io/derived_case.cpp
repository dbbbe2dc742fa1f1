#include "io/derived_case.hpp"

#include "io/case_file.hpp"
#include "io/override.hpp"
#include "io/rewritten.hpp"
#include "io/toml_value.hpp"
#include "mesh/byte_sum.hpp"
#include "mesh/errors.hpp"
#include "mesh/outline.hpp"
#include "mesh/whole_file.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace fs = std::filesystem;

namespace {

/// Every table that may name a drawing.
std::vector<Node*> drawn_tables(Node& root) {
  std::vector<Node*> found;
  for (Member& m : root.members) {
    if (m.value.kind == Node::Kind::table) found.push_back(&m.value);
    for (Node& item : m.value.items)
      if (item.kind == Node::Kind::table) found.push_back(&item);
  }
  std::erase_if(found, [](const Node* t) {
    const Node* shape = t->find("shape");
    const Node* file = t->find("file");
    return !shape || shape->text != "outline" || !file ||
           file->kind != Node::Kind::text;
  });
  return found;
}

}  // namespace

std::string sums_of_drawings(const Node& root, const fs::path& folder) {
  std::string lines;
  Node copy = root;
  for (const Node* table : drawn_tables(copy)) {
    const std::string& name = table->find("file")->text;
    const fs::path file = folder / name;
    const mesh::WholeFile whole =
        mesh::read_whole_file(file, mesh::kLargestFile);
    if (whole.fault != mesh::WholeFile::Fault::none) continue;
    lines += fmt::format("{:016x} {}\n", mesh::byte_sum(whole.bytes), name);
  }
  return lines;
}

void cannot_write(const DrawnCase& drawn, const std::string& what) {
  throw NoResultError(
      fmt::format("{}: the new set-up cannot be written as a case file: {}",
                  drawn.file.string(), what));
}

std::string_view own_text(std::string_view text) {
  if (text.starts_with(kByteOrderMark))
    text.remove_prefix(kByteOrderMark.size());
  if (!text.starts_with(kMadeBy)) return text;
  const std::size_t end = text.find("\n\n");
  return end == std::string_view::npos ? text : text.substr(end + 2);
}

Node overridden(const Node& root, const std::vector<std::string>& overrides) {
  Node result = root;
  for (const std::string& text : overrides) apply_override(result, text);
  return result;
}

std::string checked_text(const DrawnCase& drawn, std::string_view text,
                         const Node& from, const Node& to) {
  std::string result = rewritten(text, from, to);
  bool right = false;
  try {
    right = say_the_same(parse_document(result, "planned"), to);
  } catch (const InputError&) {
    // Told below: no user can mend what we wrote.
  }
  if (!right)
    cannot_write(
        drawn,
        "its TOML is laid out in a way that cannot be changed in place; "
        "give every table its own header, as in [[anode]]");
  return result;
}

solver::Case read_back(const DrawnCase& drawn, const std::string& text) {
  try {
    Node document = parse_document(text, drawn.file.string());
    // The drawn case was read with these very drawings, wherever they lie.
    for (Node* table : drawn_tables(document)) table->find("file")->line = 0;
    return read_case(document, drawn.file, {}).content;
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    cannot_write(drawn, fmt::format("{}: {}", p.key, p.wrong));
  }
}

std::vector<CopiedDrawing> gather_drawings(Node& root, const fs::path& folder) {
  std::vector<CopiedDrawing> all;
  for (Node* table : drawn_tables(root)) {
    Node& file = *table->find("file");
    const fs::path from = (folder / file.text).lexically_normal();
    auto known = std::find_if(all.begin(), all.end(),
                              [&](const auto& d) { return d.from == from; });
    if (known == all.end()) {
      std::string name = from.filename().string();
      const auto taken = [&] {
        return std::any_of(all.begin(), all.end(),
                           [&](const auto& d) { return d.name == name; });
      };
      for (int n = 2; taken(); ++n)
        name = fmt::format("{}-{}", n, from.filename().string());
      all.push_back({from, name});
      known = all.end() - 1;
    }
    file.text = known->name;
  }
  return all;
}

}  // namespace thinspot::io
