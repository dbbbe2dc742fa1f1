#include "io/starter_case.hpp"

#include "io/starter_set_ups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::io {

namespace {

constexpr double kTankHeight = 0.13, kLevel = 0.11;  // [m]
constexpr double kPartHeight = 0.05;  // of its middle above the floor [m]
constexpr double kWire = 0.8e-3;      // diameter [m]
constexpr double kDensity = 200;      // 2 A/dm2 [A/m2]

const StarterSetUp& set_up_for(std::string_view shape) {
  const auto& all = starter_set_ups();
  return *std::find_if(all.begin(), all.end(),
                       [&](const StarterSetUp& s) { return s.shape == shape; });
}

/// A line of the file, its comment in a column of its own.
std::string line(const std::string& left, std::string_view comment = "") {
  if (comment.empty()) return left + "\n";
  return fmt::format("{:<24} # {}\n", left, comment);
}

std::string mm(double millimetres) {
  return fmt::format("\"{:.6g} mm\"", millimetres);
}

mesh::Outline drawn_outline() {
  mesh::Loop loop;
  const auto& points = sample_drawing();
  for (std::size_t k = 0; k < points.size(); ++k) {
    const DrawnPoint &here = points[k], &next = points[(k + 1) % points.size()];
    loop.push_back({{1e-3 * here.x_mm, 1e-3 * here.y_mm},
                    {1e-3 * next.x_mm, 1e-3 * next.y_mm},
                    here.bulge,
                    std::string(here.face)});
  }
  return {{loop}};
}

mesh::Sizes sizes_of(const StarterSetUp& s) {
  mesh::Sizes sizes;
  for (const StarterSize& size : s.sizes)
    sizes.emplace(size.key, 1e-3 * size.mm);
  for (std::string_view flag : s.flags) sizes.emplace(flag, 1);
  return sizes;
}

mesh::Outline outline_of(const StarterSetUp& s) {
  const mesh::ShapeKind* kind = mesh::find_shape(s.shape);
  return kind ? kind->outline(sizes_of(s), s.cut) : drawn_outline();
}

/// Whole surface of the part [m2].
double area_of(const StarterSetUp& s) {
  if (s.area_cm2) return 1e-4 * *s.area_cm2;
  if (s.depth_mm) return 1e-3 * *s.depth_mm * mesh::perimeter(outline_of(s));
  return *mesh::find_shape(s.shape)->real_area(sizes_of(s));
}

/// From the liquid surface down to the part, to the next millimetre [m].
double wetted_wire(const StarterSetUp& s) {
  if (s.cut == mesh::Cut::plan) return 0.02;
  const mesh::Outline turned =
      mesh::moved(outline_of(s), s.turn_deg * std::numbers::pi / 180, {0, 0});
  const double top = kPartHeight + mesh::bounding_box(turned).size().y() / 2;
  return 1e-3 * std::ceil(1e3 * (kLevel - top) - 1e-6);
}

std::string head(const StarterSetUp& s, const std::string& file) {
  std::string text = fmt::format(
      "# Starter case for thinspot. It can be solved as it stands:\n"
      "#\n"
      "#   thinspot check {0}     looks it over and draws it\n"
      "#   thinspot solve {0}     computes how thick the coating gets\n"
      "#\n"
      "# Then make it your own, in this order: the sizes under [part], as "
      "your\n"
      "# calipers tell them; the tank and where the sheets hang; the current "
      "on\n"
      "# your meter. Every quantity carries its unit, and inches (\"1.5 in\") "
      "do\n"
      "# as well. docs/case_file.md explains every key.\n"
      "#\n"
      "# Before you plate: goggles and gloves. Read the safety data sheet of "
      "all\n"
      "# that you pour. An isolated low-voltage supply, nothing on the mains "
      "near\n"
      "# the tank. Nothing down the drain. And nothing for food or drink:\n",
      file);
  text += s.shape == "spoon"
              ? "# a spoon plated like this is for show, never for the mouth.\n"
              : "# what is plated like this must never touch either.\n";
  return text + "# More in docs/cautions.md.\n\n";
}

std::string top(const StarterSetUp& s) {
  std::string text = line("schema = 1");
  text += fmt::format("title = \"{}\"\n", s.title);
  const bool turned = s.cut == mesh::Cut::axisymmetric;
  text += line(turned ? "section = \"axisymmetric\"" : "section = \"planar\"",
               s.cut_words);
  if (!turned)
    text +=
        line(s.cut == mesh::Cut::plan ? "view = \"plan\"" : "view = \"side\"");
  if (s.depth_mm)
    text += line("depth = " + mm(*s.depth_mm),
                 "how broad the part is, across the section");
  return text + "\n";
}

std::string tank(const StarterSetUp& s) {
  std::string text =
      "[tank]                   # its inside, without the walls\n";
  if (s.cut == mesh::Cut::axisymmetric) {
    text += line("shape = \"round\"");
    text += line("diameter = \"120 mm\"");
  } else {
    text += line("shape = \"box\"");
    text += line("width = \"120 mm\"", "along x, from left to right");
  }
  if (s.cut == mesh::Cut::plan)
    return text + line("height = \"90 mm\"", "along y, front to back") + "\n";
  text += line("height = " + mm(1e3 * kTankHeight));
  return text +
         line("level = " + mm(1e3 * kLevel), "of the liquid above the floor") +
         "\n";
}

std::string solution() {
  return R"([solution]
name = "acid copper"
metal = "copper"
conductivity = "20 S/m +- 3 S/m"  # as sure as that; measure yours if you can
temperature = "25 degC"
stirring = "gentle"

)";
}

std::string sizes(const StarterSetUp& s, const std::string& drawing) {
  const mesh::ShapeKind* kind = mesh::find_shape(s.shape);
  std::string text;
  if (!kind) {
    text += fmt::format("file = \"{}\"\n", drawing);
    return text + line("unit = \"mm\"", "of the numbers in the drawing");
  }
  for (const mesh::SizeKey& key : kind->sizes)
    for (const StarterSize& size : s.sizes)
      if (size.key == key.name)
        text +=
            line(fmt::format("{} = {}", key.name, mm(size.mm)), key.meaning);
  for (std::string_view flag : kind->flags) {
    const bool on =
        std::find(s.flags.begin(), s.flags.end(), flag) != s.flags.end();
    text += line(fmt::format("{} = {}", flag, on),
                 on ? "the bore is full of solution" : "");
  }
  return text;
}

std::string part(const StarterSetUp& s, const std::string& drawing) {
  std::string text = line("[part]", "measure yours, and change these first");
  text += fmt::format("shape = \"{}\"\n", s.shape) + sizes(s, drawing);
  if (s.area_cm2) {
    text +=
        "# Its whole surface, both sides. Wrap it in kitchen foil without\n"
        "# overlap, lay the foil flat and measure that.\n";
    text += fmt::format("area = \"{:.6g} cm2\"\n", *s.area_cm2);
  }
  const double y = s.cut == mesh::Cut::plan ? 45 : 1e3 * kPartHeight;
  const double x = s.cut == mesh::Cut::axisymmetric ? 0 : 60;
  text += line(fmt::format("at = [{}, {}]", mm(x), mm(y)),
               x == 0 ? "its middle, on the axis"
                      : "its middle, from the tank's lower left corner");
  if (!s.turn_words.empty())
    text += line(fmt::format("turn = \"{:g} deg\"", s.turn_deg), s.turn_words);
  return text + "metal = \"brass\"\n\n";
}

std::string wire(const StarterSetUp& s) {
  return "[[wire]]                 # holds the part, and takes some current\n" +
         line("diameter = " + mm(1e3 * kWire)) +
         line("wetted = " + mm(1e3 * wetted_wire(s)),
              "length below the surface") +
         "\n";
}

std::string sheet(const StarterSetUp& s, std::string_view name,
                  std::string_view side) {
  const bool ring = s.cut == mesh::Cut::axisymmetric;
  const bool plan = s.cut == mesh::Cut::plan;
  std::string text = fmt::format("[[anode]]\nname = \"{}\"\n", name);
  text += line("shape = \"plate\"",
               ring ? "beside the axis it becomes a ring" : "");
  text += line("width = \"2 mm\"", "its thickness");
  text += line("height = \"60 mm\"",
               plan ? "how broad it is, seen from above" : "");
  text += line(fmt::format("side = \"{}\"", side),
               ring ? "outside the part, all around …" : "of the part …");
  text += line("gap = \"30 mm\"", "… at this free distance, by a ruler");
  return text + "metal = \"copper\"\n\n";
}

std::string anodes(const StarterSetUp& s) {
  if (s.cut == mesh::Cut::axisymmetric) return sheet(s, "ring", "right");
  return sheet(s, "left sheet", "left") + sheet(s, "right sheet", "right");
}

/// Bare wire takes about twice the part's mean current density (the same is
/// assumed in the solve).
double current_of(const StarterSetUp& s) {
  const double bare = std::numbers::pi * kWire * wetted_wire(s);
  return kDensity * (area_of(s) + 2 * bare);
}

std::string cathode() {
  return R"([cathode]
# How much more voltage the surface asks for where more current flows. The
# higher, the more even the coating; brighteners raise it.
polarization_resistance = "2.6 ohm cm2 +- 1 ohm cm2"
polarization_at = "2 A/dm2"

)";
}

std::string supply(const StarterSetUp& s) {
  return fmt::format(
             "[supply]\n"
             "# Through part and wire together: 2 A/dm2 on {:.2g} cm2 of part. "
             "Another\n"
             "# size asks for another current; current_density = \"2 A/dm2\" "
             "in place\n"
             "# of it lets the program find that.\n"
             "current = \"{:.2g} A\"\n",
             1e4 * area_of(s), current_of(s)) +
         line("voltage_limit = \"6 V\"", "where the knob stands") + "\n";
}

/// The part's faces as a comment, broken into lines.
std::string face_lines(const StarterSetUp& s) {
  std::vector<std::string> names;
  const mesh::Outline outline = outline_of(s);
  for (const mesh::Curve& c : outline.loops.front())
    if (std::find(names.begin(), names.end(), c.face) == names.end())
      names.push_back(c.face);
  std::string text;
  std::string row = "# The part has";
  for (std::size_t k = 0; k < names.size(); ++k) {
    const std::string word = names[k] + (k + 1 < names.size() ? "," : ".");
    if (row.size() + 1 + word.size() > 77) {
      text += row + "\n";
      row = "#";
    }
    row += " " + word;
  }
  return text + row + "\n" + fmt::format("# faces = [\"{}\"]\n", names.front());
}

std::string target(const StarterSetUp& s) {
  std::string text =
      "[target]\n" +
      line("thickness = \"10 um\"", "wanted on every face that counts") +
      "# Where no faces are named, all counts that a ball of 20 mm can "
      "touch.\n" +
      face_lines(s);
  if (s.cut == mesh::Cut::side)
    text += line("contact_margin = \"2 mm\"", "around the wire nothing counts");
  return text +
         "burning_current_density = \"5 A/dm2\"\n"
         "working_range = [\"0.5 A/dm2\", \"4 A/dm2\"]\n";
}

}  // namespace

std::vector<std::string> starter_names() {
  std::vector<std::string> names;
  for (const StarterSetUp& s : starter_set_ups()) names.emplace_back(s.shape);
  return names;
}

std::string starter_title(std::string_view shape) {
  return std::string(set_up_for(shape).title);
}

bool needs_drawing(std::string_view shape) {
  return mesh::find_shape(shape) == nullptr;
}

std::string starter_case(std::string_view shape, const std::string& file,
                         const std::string& drawing) {
  const StarterSetUp& s = set_up_for(shape);
  return head(s, file) + top(s) + tank(s) + solution() + part(s, drawing) +
         wire(s) + anodes(s) + cathode() + supply(s) +
         "[[step]]\nduration = \"40 min\"\n\n" + target(s);
}

std::string starter_drawing() {
  std::string text =
      "# Outline of a drawer pull, walked counter-clockwise. Put your own "
      "points here.\n"
      "# bulge bends the piece from a point to the next one: 0 is straight, 1 "
      "half a\n"
      "# circle outwards, negative inwards (the tangent of a quarter of its "
      "angle).\n"
      "# face names it; neighbours may share a name.\n"
      "x_mm,y_mm,bulge,face\n";
  for (const DrawnPoint& p : sample_drawing())
    text += fmt::format("{:g},{:g},{:g},{}\n", p.x_mm, p.y_mm, p.bulge, p.face);
  return text;
}

}  // namespace thinspot::io
