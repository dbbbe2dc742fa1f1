#include "io/planned_case.hpp"

#include "io/case_file.hpp"
#include "io/document.hpp"
#include "io/override.hpp"
#include "io/planned_pieces.hpp"
#include "io/quantity_text.hpp"
#include "io/quote.hpp"
#include "io/rewritten.hpp"
#include "io/toml_value.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kHead = "# Made by thinspot plan from ";

[[noreturn]] void fail(const DrawnCase& drawn, const std::string& what) {
  throw NoResultError(
      fmt::format("{}: the plan cannot be written as a case file: {}",
                  drawn.file.string(), what));
}

/// Without the head that an earlier plan put there.
std::string_view own_text(std::string_view text) {
  if (text.starts_with(kByteOrderMark))
    text.remove_prefix(kByteOrderMark.size());
  if (!text.starts_with(kHead)) return text;
  const std::size_t end = text.find("\n\n");
  return end == std::string_view::npos ? text : text.substr(end + 2);
}

std::string head(const DrawnCase& drawn, const std::string& name) {
  const std::string file = drawn.file.filename().string();
  return fmt::format(
      "{}{}: {}.\n"
      "# A line that the plan changed ends with what it was.\n\n",
      kHead, is_printable(file, 200) ? file : "a case file",
      is_printable(name, 200) ? name : "a set-up");
}

void put_level(Node& root, const solver::Case& drawn,
               const solver::Case& planned) {
  const double level = planned.section.tank.level;
  if (level == drawn.section.tank.level) return;
  Node& tank = *root.find("tank");
  put_key(tank, "level", text_node(length_text(level)));
  drop_key(tank, "volume");
  drop_key(tank, "depth");
}

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

/// Drawings lie beside the new file, whichever folder they were in.
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

Node overridden(const Node& root, const std::vector<std::string>& overrides) {
  Node result = root;
  for (const std::string& text : overrides) apply_override(result, text);
  return result;
}

/// The text with the document changed; it says just that.
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
    fail(drawn,
         "its TOML is laid out in a way that cannot be changed in place; "
         "give every table its own header, as in [[anode]]");
  return result;
}

void check_reading(const DrawnCase& drawn, const std::string& text,
                   const solver::Case& planned) {
  solver::Case read;
  try {
    read = read_case_text(text, drawn.file).content;
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    fail(drawn, fmt::format("{}: {}", p.key, p.wrong));
  }
  const std::string address = first_difference(planned, read);
  if (!address.empty())
    fail(drawn, fmt::format("{} would read otherwise than planned", address));
}

}  // namespace

PlannedCase planned_case(const DrawnCase& drawn, const solver::Case& planned,
                         const std::string& name) {
  const std::string_view own = own_text(drawn.text);
  const Node from = parse_document(own, drawn.file.string());
  Node to = overridden(from, drawn.overrides);
  put_solids(to, drawn.content, planned);
  put_level(to, drawn.content, planned);
  put_wires(to, drawn.content, planned);
  put_supplies(to, drawn.content, planned);
  put_steps(to, drawn.content, planned);
  std::erase_if(to.members, [](const Member& m) {
    return m.value.kind == Node::Kind::list && m.value.items.empty();
  });
  // Read where its drawings are, then moved to where they will be.
  check_reading(drawn, checked_text(drawn, own, from, to), planned);
  PlannedCase result;
  result.drawings = gather_drawings(to, drawn.file.parent_path());
  result.text = head(drawn, name) + checked_text(drawn, own, from, to);
  return result;
}

}  // namespace thinspot::io
