// The examples of docs/case_file.md: they read, and leave no key out.
#include "case_text.hpp"
#include "io/case_keys.hpp"
#include "io/document.hpp"
#include "io/findings.hpp"
#include "io/table_reader.hpp"
#include "mesh/errors.hpp"
#include "mesh/shape.hpp"
#include "tests/unit/shape_examples.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <fstream>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

struct Snippet {
  std::string heading;
  std::string toml;
};

std::vector<std::string> page() {
  std::ifstream in(THINSPOT_SOURCE_DIR "/docs/case_file.md");
  REQUIRE(in);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::vector<Snippet> snippets() {
  std::vector<Snippet> all;
  std::string heading;
  bool inside = false;
  for (const std::string& line : page()) {
    if (!inside && line.starts_with("## ")) heading = line.substr(3);
    if (line.starts_with("```")) {
      inside = !inside && line == "```toml";
      if (inside) all.push_back({heading, ""});
    } else if (inside) {
      all.back().toml += line + "\n";
    }
  }
  return all;
}

std::string snippets_under(const std::string& heading) {
  std::string text;
  for (const Snippet& e : snippets())
    if (e.heading == heading) text += "\n" + e.toml;
  return text;
}

std::string heading_of(const io::TableInfo& table) {
  const std::string name(table.name);
  if (name.empty()) return "Top of the file";
  return table.repeated ? fmt::format("[[{}]]", name)
                        : fmt::format("[{}]", name);
}

void read_key(io::TableReader& t, const io::KeyInfo& key, std::size_t places) {
  switch (key.form) {
    case io::Form::text:
    case io::Form::name:
    case io::Form::choice: t.text(key.name); break;
    case io::Form::flag: t.flag(key.name); break;
    case io::Form::whole: t.whole(key.name); break;
    case io::Form::factor: t.factor(key.name); break;
    case io::Form::value: t.value(key.name); break;
    case io::Form::quantity: t.quantity(key.name); break;
    case io::Form::quantities:
    case io::Form::values:
      if (key.name == "contact_resistance")
        t.quantities(key.name, places);
      else
        t.all_quantities(key.name);
      break;
    case io::Form::point: t.point(key.name); break;
    case io::Form::points: t.points(key.name); break;
    case io::Form::texts:
    case io::Form::names: t.texts(key.name); break;
    case io::Form::table: break;  // what is in the braces has its own keys
    case io::Form::value_pair: t.value_pair(key.name); break;
  }
}

void read_table(const io::TableInfo& info, const io::Node& table) {
  const io::Node* shape = table.find("shape");
  const auto keys =
      io::keys_with_shape(info, shape && info.has_shape ? shape->text : "");
  const io::Node* at = table.find("at");
  io::Findings findings("page");
  io::TableReader t(&table, std::string(info.name), keys, findings);
  for (const io::KeyInfo& key : keys)
    read_key(t, key, at ? at->items.size() : 0);
  CHECK_NOTHROW(findings.throw_if_any());
}

}  // namespace

TEST_CASE("The page's first example is a whole case", "[docs]") {
  const auto all = snippets();
  REQUIRE_FALSE(all.empty());
  CHECK(problems_in(all.front().toml).empty());
}

TEST_CASE("Every example reads", "[docs]") {
  for (const Snippet& e : snippets()) {
    CAPTURE(e.toml);
    const io::Node root = io::parse_document(e.toml, "page");
    for (const io::Member& m : root.members) {
      if (io::find_key(io::table_info("").keys, m.name)) continue;
      const io::TableInfo& info = io::table_info(m.name);
      if (!info.repeated) read_table(info, m.value);
      for (const io::Node& element : m.value.items) read_table(info, element);
    }
  }
}

TEST_CASE("Every key has an example", "[docs]") {
  for (const io::TableInfo& table : io::case_tables()) {
    const std::string text = snippets_under(heading_of(table));
    for (const io::KeyInfo& key : table.keys) {
      CAPTURE(table.name);
      const std::string given = fmt::format("{} = ", key.name);
      if (text.find("\n" + given) == std::string::npos)
        CHECK_THAT(text, Contains("\n# " + given));
    }
  }
}

TEST_CASE("The page names every face of every shape", "[docs]") {
  std::map<std::string, std::string> named;  // bullet by shape
  std::string shape;
  for (const std::string& line : page()) {
    if (line.starts_with("- `"))
      shape = line.substr(3, line.find('`', 3) - 3);
    else if (!line.starts_with("  "))
      shape.clear();
    if (!shape.empty()) named[shape] += line;
  }
  std::set<std::string> unnamed;
  for (const Example& e : examples())
    for (const mesh::Cut cut :
         {mesh::Cut::side, mesh::Cut::plan, mesh::Cut::axisymmetric})
      for (const mesh::Loop& loop : draw(e, cut).loops)
        for (const mesh::Curve& c : loop)
          if (named[e.shape].find("`" + c.face + "`") == std::string::npos)
            unnamed.insert(fmt::format("{}: {}", e.shape, c.face));
  INFO("below \"Their faces\" in docs/case_file.md");
  CHECK(unnamed == std::set<std::string>{});
}
