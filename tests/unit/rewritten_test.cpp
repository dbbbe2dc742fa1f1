// A case file's text changed in place.
#include "io/rewritten.hpp"
#include "io/document.hpp"
#include "io/toml_statements.hpp"
#include "io/toml_value.hpp"

#include <catch2/catch.hpp>

#include <functional>
#include <string>

using namespace thinspot;
using io::Node;

namespace {

const char* const kText = R"(# head
schema = 1  # of the file
title = "a # in quotes"

[tank]  # the inside
width = "90 mm"   # inner
note = """
[[anode]]
x = 1
"""

# before the first
[[anode]]
name = "left"
gap = "35 mm"

# before the second
[[anode]]
name = "right"  # the other
# between
at = [
  "1 mm",  # x
  "2 mm",
]

[step.supply]
current = "1 A"
)";

std::string changed(const std::string& text,
                    const std::function<void(Node&)>& change) {
  const Node from = io::parse_document(text, "text");
  Node to = from;
  change(to);
  const std::string result = io::rewritten(text, from, to);
  CHECK(io::say_the_same(io::parse_document(result, "result"), to));
  return result;
}

std::string with(std::string text, const std::string& piece,
                 const std::string& other) {
  const auto at = text.find(piece);
  REQUIRE(at != std::string::npos);
  return text.replace(at, piece.size(), other);
}

}  // namespace

TEST_CASE("Statements are found with all that TOML allows", "[rewritten]") {
  const auto all = io::toml_statements(
      "\xEF\xBB\xBF"
      "a.\"b.c\" = '''x\n[no]''' # c\r\n[t]\r\nk = \"\\\"[\"\n"
      "[[e]]\n[e.sub]\nv = [1, # ]\n 2]\n[[e]]\nw = { x = \"}\" }");
  REQUIRE(all.size() == 8);
  CHECK(all[0].path == std::vector<std::string>{"a", "b.c"});
  CHECK(all[1].kind == io::Statement::Kind::table);
  CHECK(all[2].path == std::vector<std::string>{"t", "k"});
  CHECK(all[3].kind == io::Statement::Kind::element);
  CHECK(all[5].path == std::vector<std::string>{"e", "sub", "v"});
  CHECK(all[5].ordinal == 0);
  CHECK(all[7].path == std::vector<std::string>{"e", "w"});
  CHECK(all[7].in_element);
  CHECK(all[7].ordinal == 1);
}

TEST_CASE("What says the same is the same text", "[rewritten]") {
  CHECK(changed(kText, [](Node&) {}) == kText);
}

TEST_CASE("A value changes in its place and says what it was", "[rewritten]") {
  CHECK(changed(kText,
                [](Node& n) {
                  io::put_key(*n.find("tank"), "width", io::text_node("8 cm"));
                }) ==
        with(kText, "\"90 mm\"   # inner", "\"8 cm\"   # inner  # was 90 mm"));
  CHECK(changed(kText,
                [](Node& n) {
                  io::put_key(n.find("anode")->items[1], "at",
                              io::texts_node({"3 mm", "2 mm"}));
                }) == with(kText, "[\n  \"1 mm\",  # x\n  \"2 mm\",\n]",
                           "[\"3 mm\", \"2 mm\"]  # was 1 mm, 2 mm"));
  // Once more: the one before is of no account.
  const std::string once =
      with(kText, "gap = \"35 mm\"", "gap = \"20 mm\"  # was 35 mm");
  CHECK(changed(once, [](Node& n) {
          io::put_key(n.find("anode")->items[0], "gap", io::text_node("9 mm"));
        }) == with(once, "\"20 mm\"  # was 35 mm", "\"9 mm\"  # was 20 mm"));
}

TEST_CASE("Keys come and go", "[rewritten]") {
  CHECK(changed(kText,
                [](Node& n) {
                  Node& left = n.find("anode")->items[0];
                  io::drop_key(left, "gap");
                  io::put_key(left, "at", io::texts_node({"1 mm", "2 mm"}));
                }) ==
        with(kText, "gap = \"35 mm\"",
             "at = [\"1 mm\", \"2 mm\"]  # in place of gap = 35 mm"));
  CHECK(changed(kText, [](Node& n) {
          io::put_key(n, "depth", io::text_node("1 mm"));
        }) == with(kText, "[tank]", "depth = \"1 mm\"  # new\n[tank]"));
  CHECK(changed(kText, [](Node& n) {
          Node plan = io::table_node();
          io::put_key(plan, "goal", io::text_node("metal"));
          io::put_key(n, "plan", plan);
        }) == std::string(kText) + "\n[plan]  # new\ngoal = \"metal\"\n");
}

TEST_CASE("Elements come and go with their comments", "[rewritten]") {
  CHECK(changed(kText,
                [](Node& n) {
                  n.find("anode")->items.erase(n.find("anode")->items.begin());
                }) == with(kText,
                           "[[anode]]\nname = \"left\"\ngap = \"35 mm\"\n",
                           "# taken out: [[anode]] left\n"));
  CHECK(changed(kText,
                [](Node& n) {
                  Node third = io::table_node();
                  io::put_key(third, "name", io::text_node("a \"third\""));
                  n.find("anode")->items.pop_back();
                  n.find("anode")->items.push_back(third);
                }) ==
        with(kText,
             "[[anode]]\nname = \"right\"  # the other\n# between\nat = [\n  "
             "\"1 mm\",  # x\n  \"2 mm\",\n]\n",
             "# taken out: [[anode]] right\n\n[[anode]]  # new\nname = \"a "
             "\\\"third\\\"\"\n"));
  CHECK(changed("[[a]]\nx = 1", [](Node& n) {
          Node more = io::table_node();
          io::put_key(more, "x", io::number_node(2));
          n.find("a")->items.push_back(more);
        }) == "[[a]]\nx = 1\n\n[[a]]  # new\nx = 2\n");
}

TEST_CASE("Tables in braces, by dots and with a header each", "[rewritten]") {
  const auto gap = [](Node& n) {
    io::put_key(n.find("a")->items[0], "gap", io::text_node("2 mm"));
  };
  CHECK(changed("a = [{ b = true, gap = \"1 mm\" }]  # c\n", gap) ==
        "a = [{ b = true, gap = \"2 mm\" }]  # c  # was { b = true, gap = 1 "
        "mm }\n");
  const auto level = [](Node& n) {
    io::put_key(*n.find("t"), "level", io::text_node("2 mm"));
    io::put_key(*n.find("t"), "more", io::number_node(1));
  };
  CHECK(changed("t.level = \"1 mm\"\nother = 1\n", level) ==
        "t.level = \"2 mm\"  # was 1 mm\nt.more = 1  # new\nother = 1\n");
  CHECK(changed("[t]\nlevel = \"1 mm\"\n[t.sub]\nx = 1\n", level) ==
        "[t]\nlevel = \"2 mm\"  # was 1 mm\nmore = 1  # new\n[t.sub]\nx = "
        "1\n");
  CHECK(changed("[t]\ny = 1\n[t.sub]\nx = 1\n", [](Node& n) {
          io::put_key(*n.find("t")->find("sub"), "x", io::number_node(2));
        }) == "[t]\ny = 1\nsub = { x = 2 }  # new\n");
}

TEST_CASE("Windows' line ends stay", "[rewritten]") {
  CHECK(changed("[t]\r\nx = 1 # c\r\ny = 2\r\n", [](Node& n) {
          io::put_key(*n.find("t"), "x", io::number_node(3));
        }) == "[t]\r\nx = 3 # c  # was 1\r\ny = 2\r\n");
}
