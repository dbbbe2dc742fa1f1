#include "io/case_reading.hpp"

#include <fmt/format.h>

namespace thinspot::io {

void read_head(CaseReading& r) {
  // Tables are members of the top level too; check_tables() looks at those.
  Node keys;
  keys.kind = Node::Kind::table;
  for (const KeyInfo& key : table_info("").keys)
    if (const Node* found = r.root.find(key.name))
      keys.members.push_back({std::string(key.name), *found});
  TableReader t(&keys, "", table_info("").keys, r.findings);

  const auto schema = t.whole("schema");
  if (schema && *schema != 1)
    t.wrong("schema", fmt::format("{} is not known here", *schema),
            "schema = 1");
  if (const auto title = t.text("title")) r.content.title = *title;
  r.content.growth = t.flag("growth").value_or(false);

  const std::string section = t.text("section").value_or("planar");
  const auto view = t.text("view");
  mesh::Cut& cut = r.content.section.cut;
  if (section == "axisymmetric") {
    cut = mesh::Cut::axisymmetric;
    if (t.has("view"))
      t.wrong("view", "an axisymmetric section has no view", "leave it out");
    if (t.has("depth"))
      t.wrong("depth", "an axisymmetric section has no depth",
              "leave it out: every solid is a body of revolution");
  } else {
    cut = view == "plan" ? mesh::Cut::plan : mesh::Cut::side;
    r.content.depth = t.value("depth");
  }
}

}  // namespace thinspot::io
