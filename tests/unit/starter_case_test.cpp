#include "io/starter_case.hpp"
#include "io/case_file.hpp"
#include "mesh/shape.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

std::string starter(const std::string& shape) {
  return io::starter_case(shape, "my.toml", "my.csv");
}

io::CaseFile read(const std::string& shape) {
  const Scratch scratch;
  put(scratch / "my.toml", starter(shape));
  if (io::needs_drawing(shape)) put(scratch / "my.csv", io::starter_drawing());
  return io::read_case(scratch / "my.toml", {});
}

}  // namespace

TEST_CASE("there is a starter for each shape, and it shows every size") {
  const std::vector<std::string> names = io::starter_names();
  INFO("starters are listed in io/starter_set_ups.cpp");
  CHECK(names.size() == mesh::shape_kinds().size() + 1);
  CHECK(names.back() == "outline");
  for (const mesh::ShapeKind& kind : mesh::shape_kinds()) {
    const std::string shape(kind.name);
    CAPTURE(shape);
    REQUIRE(std::find(names.begin(), names.end(), shape) != names.end());
    const std::string text = starter(shape);
    for (const mesh::SizeKey& key : kind.sizes) {
      CHECK_THAT(text, Contains("\n" + std::string(key.name) + " = \""));
      CHECK_THAT(text, Contains(std::string(key.meaning)));
    }
    for (std::string_view flag : kind.flags)
      CHECK_THAT(text, Contains("\n" + std::string(flag) + " = "));
  }
}

TEST_CASE("a starter can be read on any terminal and warns first") {
  for (const std::string& shape : io::starter_names()) {
    CAPTURE(shape);
    const std::string text = starter(shape);
    std::istringstream in(text + io::starter_drawing());
    for (std::string line; std::getline(in, line);) {
      CAPTURE(line);
      const auto columns = std::count_if(line.begin(), line.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
      });
      CHECK(columns <= 80);
    }
    const std::size_t begin = text.find("schema");
    for (const char* word : {"goggles", "gloves", "safety data sheet",
                             "isolated", "food or drink"})
      CHECK(text.find(word) < begin);
  }
}

TEST_CASE("a starter is read as it is meant") {
  for (const std::string& shape : io::starter_names()) {
    CAPTURE(shape);
    const solver::Case c = read(shape).content;
    REQUIRE_FALSE(c.section.solids.empty());
    const auto part = std::find_if(
        c.section.solids.begin(), c.section.solids.end(),
        [](const mesh::Solid& s) { return s.role == mesh::Role::part; });
    REQUIRE(part != c.section.solids.end());
    CHECK(part->shape == shape);
    // Every size is in the file: nothing of the part is assumed.
    for (const solver::Assumption& a : c.assumed)
      CHECK_FALSE(a.key.starts_with("part."));
    CHECK(c.anodes.size() ==
          (c.section.cut == mesh::Cut::axisymmetric ? 1u : 2u));
    CHECK(c.target.thickness);
    REQUIRE(c.supply.current);
    // 2 A/dm2 over the part, twice that on the bare wire; the current is
    // given with two digits, so to 5 %.
    const mesh::Outline outline = mesh::outline_at_origin(*part, c.section.cut);
    const mesh::ShapeKind* kind = mesh::find_shape(shape);
    const double area = c.part_area ? *c.part_area
                        : c.depth   ? *c.depth * mesh::perimeter(outline)
                                    : *kind->real_area(part->sizes);
    REQUIRE(c.wires.size() == 1);
    CHECK(
        c.supply.current->value ==
        Approx(200 * (area + 2 * solver::bare_area(c.wires[0]))).epsilon(0.05));
  }
}
