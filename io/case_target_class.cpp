#include "io/case_reading.hpp"

#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/thickness_classes.hpp"
#include "mesh/lower_case.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

/// "Fe/Zn 8", "fe/zn8" and "FE/ZN 8" are one.
std::string squeezed(const std::string& text) {
  std::string plain = mesh::lower_case(text);
  std::erase_if(plain, [](char ch) { return ch == ' ' || ch == '-'; });
  return plain;
}

void add_new(std::vector<std::string>& list, const std::string& text) {
  if (std::find(list.begin(), list.end(), text) == list.end())
    list.push_back(text);
}

std::string meant(const std::string& text,
                  const std::vector<std::string>& known) {
  const auto near = nearest(text, known);
  return near ? fmt::format("is \"{}\" meant?", *near)
              : "it has " + with_or(known);
}

}  // namespace

void read_target_class(CaseReading& r, TableReader& t) {
  if (!t.has("standard") && !t.has("class")) return;
  if (t.has("thickness"))
    t.wrong("thickness", "the class asks for one as well",
            "give one of thickness, and standard with class");
  const auto standard = t.text("standard"), name = t.text("class");
  if (!t.has("standard"))
    t.missing("standard",
              "say whose class it is, as in standard = \"ASTM "
              "B633\"");
  if (!t.has("class"))
    t.missing("class", "say which, as in class = \"Fe/Zn 8\"");
  if (!standard || !name) return;
  std::vector<std::string> standards, classes;
  for (const ThicknessClass& c : library_classes()) {
    add_new(standards, c.standard);
    if (squeezed(c.standard) != squeezed(*standard)) continue;
    classes.push_back(c.name);
    if (squeezed(c.name) != squeezed(*name)) continue;
    solver::Target& target = r.content.target;
    target.thickness = c.thickness;
    target.standard = c.standard;
    target.thickness_class = c.name;
    target.thickness_source = fmt::format("{}; for {} on {}; {}; {}", c.service,
                                          c.metal, c.on, c.edition, c.source);
    target.class_metal = c.metal;
    return;
  }
  if (classes.empty())
    t.wrong("standard", in_quotes(*standard) + " is not in the library",
            meant(*standard, standards) + "; or give thickness");
  else
    t.wrong("class", in_quotes(*name) + " is not a class of " + *standard,
            meant(*name, classes));
}

}  // namespace thinspot::io
