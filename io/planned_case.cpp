#include "io/planned_case.hpp"

#include "io/derived_case.hpp"
#include "io/document.hpp"
#include "io/planned_pieces.hpp"
#include "io/quantity_text.hpp"
#include "io/quote.hpp"
#include "io/toml_value.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

std::string head(const DrawnCase& drawn, const std::string& name) {
  const std::string file = drawn.file.filename().string();
  return fmt::format(
      "{}plan from {}: {}.\n"
      "# A line that the plan changed ends with what it was.\n\n",
      kMadeBy, is_printable(file, 200) ? file : "a case file",
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

/// Pairs of quantities go where one of them is planned, and exact then.
/// @returns the planned case with those that stay
solver::Case put_pairs(Node& root, solver::Case planned) {
  std::vector<std::string> open;
  for_each_quantity(planned,
                    [&](const std::string& key, const solver::Quantity& q) {
                      if (q.plus_minus > 0) open.push_back(key);
                    });
  const auto is_exact = [&](const std::string& key) {
    return std::find(open.begin(), open.end(), key) == open.end();
  };
  std::erase_if(planned.correlated, [&](const solver::Correlated& pair) {
    return is_exact(pair.of[0]) || is_exact(pair.of[1]);
  });
  if (Node* list = root.find("correlated"))
    std::erase_if(list->items, [&](const Node& pair) {
      const Node* of = pair.find("of");
      return of &&
             std::any_of(of->items.begin(), of->items.end(),
                         [&](const Node& key) { return is_exact(key.text); });
    });
  return planned;
}

void check_reading(const DrawnCase& drawn, const std::string& text,
                   const solver::Case& planned) {
  const solver::Case read = read_back(drawn, text);
  const std::string address = first_difference(planned, read);
  if (!address.empty())
    cannot_write(drawn,
                 fmt::format("{} would read otherwise than planned", address));
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
  const solver::Case expected = put_pairs(to, planned);
  std::erase_if(to.members, [](const Member& m) {
    return m.value.kind == Node::Kind::list && m.value.items.empty();
  });
  // Read where its drawings are, then moved to where they will be.
  check_reading(drawn, checked_text(drawn, own, from, to), expected);
  PlannedCase result;
  result.drawings = gather_drawings(to, drawn.file.parent_path());
  result.text = head(drawn, name) + checked_text(drawn, own, from, to);
  return result;
}

}  // namespace thinspot::io
