#include "io/case_reading.hpp"

#include "mesh/millimetres.hpp"

#include <fmt/format.h>

#include <numbers>

namespace thinspot::io {

namespace {

void refuse_keys(TableReader& t, std::initializer_list<const char*> keys,
                 const std::string& wrong, const std::string& mend) {
  for (const char* key : keys)
    if (t.has(key)) t.wrong(key, wrong, mend);
}

/// @returns false where it cannot be drawn.
bool read_drawn(CaseReading& r, TableReader& t, mesh::Tank& tank) {
  refuse_keys(t, {"width", "height", "diameter"},
              "a drawn tank's size is that of its drawing", "leave it out");
  refuse_keys(t, {"volume", "depth"},
              "a drawn tank's volume does not tell its level",
              "leave it out and give level = \"100 mm\"");
  if (!t.has("file")) {
    t.missing("file",
              "name the drawing of the tank's inside, as in file = "
              "\"tank.dxf\"");
    return false;
  }
  const auto drawn = read_drawing(r, t);
  if (!drawn) return false;
  if (drawn->loops.size() != 1) {
    t.wrong("file", fmt::format("holds {} outlines", drawn->loops.size()),
            "one: the inside of the tank");
    return false;
  }
  const mesh::Box box = mesh::bounding_box(*drawn);
  tank.drawn = mesh::moved(*drawn, 0, -box.low);
  tank.width = box.size().x();
  tank.height = box.size().y();
  return true;
}

/// Width and height, or diameter. @returns false where they are not all there.
bool read_size(TableReader& t, mesh::Tank& tank, mesh::Cut cut) {
  const bool round = tank.shape == mesh::Tank::Shape::round;
  const char* across = round ? "diameter" : "width";
  const char* other = round ? "width" : "diameter";
  const bool flat = round && cut == mesh::Cut::plan;
  bool complete = true;
  const auto need = [&](const char* key) {
    const auto value = t.value(key);
    if (!t.has(key))
      t.missing(key, fmt::format("give it, as in {} = \"90 mm\"", key));
    complete = complete && value;
    return value.value_or(0);
  };
  tank.width = need(across);
  tank.height = flat ? tank.width : need("height");
  if (t.has(other))
    t.wrong(other, fmt::format("a {} tank has none", round ? "round" : "box"),
            fmt::format("its size is {}", across));
  if (flat && t.has("height"))
    t.wrong("height", "a round tank seen from above has none", "leave it out");
  return complete;
}

/// From the floor's area, where the volume of the solution is given.
std::optional<double> level_from_volume(TableReader& t, const mesh::Tank& tank,
                                        mesh::Cut cut) {
  const auto volume = t.value("volume");
  if (cut == mesh::Cut::axisymmetric) {
    if (t.has("depth"))
      t.wrong("depth", "a round tank has none", "leave it out");
    if (!volume) return std::nullopt;
    return *volume / (std::numbers::pi / 4 * tank.width * tank.width);
  }
  const auto depth = t.value("depth");
  if (!t.has("depth"))
    t.missing("depth",
              "give the tank's inner size front to back beside its "
              "volume, as in depth = \"60 mm\"");
  if (!volume || !depth) return std::nullopt;
  return *volume / (tank.width * *depth);
}

/// @param drawn  whether the tank is: then volume and depth are noted already
void read_level(TableReader& t, mesh::Tank& tank, mesh::Cut cut, bool drawn) {
  std::optional<double> level;
  if (drawn) {
    level = t.value("level");
    if (!t.has("level") && !t.has("volume"))
      t.missing("level",
                "give the height of the liquid above the drawing's lowest "
                "point, as in level = \"100 mm\"");
  } else if (t.has("volume")) {
    if (t.has("level"))
      t.wrong("volume", "the level is given as well", "give one of the two");
    level = level_from_volume(t, tank, cut);
  } else {
    level = t.value("level");
    if (!t.has("level"))
      t.missing("level",
                "give the height of the liquid above the floor, as in "
                "level = \"100 mm\", or its volume");
    if (t.has("depth"))
      t.wrong("depth", "serves with volume only", "leave it out");
  }
  if (!level) return;
  tank.level = *level;
  // Filled to the brim is still filled.
  if (tank.level > tank.height * (1 + 1e-9))
    t.wrong(t.has("volume") ? "volume" : "level",
            fmt::format("the liquid would stand {} high in a tank of {}",
                        mesh::in_mm(tank.level), mesh::in_mm(tank.height)),
            "less liquid or a higher tank");
}

/// @returns false where no tank of that shape has such a section.
bool check_section(TableReader& t, mesh::Tank::Shape shape, mesh::Cut cut) {
  if (shape == mesh::Tank::Shape::round && cut == mesh::Cut::side) {
    t.wrong("shape",
            "an upright section of a round tank is not the same along "
            "its depth",
            "view = \"plan\", section = \"axisymmetric\", or shape = \"box\"");
    return false;
  }
  if (shape == mesh::Tank::Shape::outline && cut == mesh::Cut::axisymmetric) {
    t.wrong("shape", "a drawn tank is not a body of revolution",
            "shape = \"round\", or section = \"planar\"");
    return false;
  }
  return true;
}

}  // namespace

void read_tank(CaseReading& r) {
  TableReader t = open_table(r, "tank");
  if (!t.present()) return;
  mesh::Tank& tank = r.content.section.tank;
  const mesh::Cut cut = r.content.section.cut;
  const auto shape = t.text("shape");
  if (t.has("shape") && !shape) return;
  if (shape == "round") tank.shape = mesh::Tank::Shape::round;
  if (shape == "outline") tank.shape = mesh::Tank::Shape::outline;
  if (!check_section(t, tank.shape, cut)) return;
  const bool drawn = tank.shape == mesh::Tank::Shape::outline;
  if (!drawn)
    refuse_keys(t, {"file", "scale", "unit"},
                "serves with shape = \"outline\" only", "leave it out");
  const bool complete =
      drawn ? read_drawn(r, t, tank) : read_size(t, tank, cut);
  if (cut == mesh::Cut::plan)
    refuse_keys(t, {"level", "volume", "depth"}, "a view from above has none",
                "leave it out, or view = \"side\"");
  else if (complete)
    read_level(t, tank, cut, drawn);
}

}  // namespace thinspot::io
