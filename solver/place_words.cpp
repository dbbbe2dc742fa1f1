#include "solver/place_words.hpp"

#include "solver/face_stretch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Curve;
using mesh::Cut;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;
using mesh::Section;
using Kind = StretchEnd::Kind;

/// A stretch below both is named as a whole: nobody measures along it.
constexpr double kShortShare = 0.1;     // of the outline's size
constexpr double kShortStretch = 5e-3;  // [m]
/// Within this share of a stretch's length from its middle, or from the axis.
constexpr double kMiddle = 0.1;
/// Nearer to an end than this is at the end.
constexpr double kAtEndShare = 0.03;
constexpr double kAtEnd = 0.25e-3;  // [m]

/// "left", "upper right" … for a direction; on its own or before a noun.
std::string direction(const Point& way, Cut cut, bool adjective) {
  static constexpr double tilt = 0.4142;  // tan 22.5 deg: eight directions
  const double x = way.x(), y = way.y();
  const bool slanted = std::abs(x) > tilt * std::abs(y);
  std::string words;
  if (std::abs(y) > tilt * std::abs(x)) {
    if (cut == Cut::plan)
      words = y > 0 ? "far" : "near";
    else if (slanted || adjective)
      words = y > 0 ? "upper" : "lower";
    else
      words = y > 0 ? "top" : "bottom";
    if (cut == Cut::plan && !slanted && !adjective) words += " wall";
  }
  if (slanted)
    words += (words.empty() ? "" : " ") + std::string(x > 0 ? "right" : "left");
  return words;
}

/// "left", "up", "down and right" … for what a surface looks at.
std::string facing(const Point& normal, Cut cut) {
  if (cut == Cut::plan) return "the " + direction(normal, cut, false);
  const std::string plain = direction(normal, cut, false);
  const std::size_t gap = plain.find(' ');
  const std::string upright = normal.y() > 0 ? "up" : "down";
  if (gap != std::string::npos)
    return upright + " and " + plain.substr(gap + 1);
  return plain == "top" || plain == "bottom" ? upright : plain;
}

/// Lower-case words are a name to put an article before; anything else, as
/// the layers of drawings are called, is quoted.
bool is_plain(const std::string& face) {
  return !face.empty() && std::islower(static_cast<unsigned char>(face[0])) &&
         std::all_of(face.begin(), face.end(), [](unsigned char ch) {
           return std::islower(ch) || std::isdigit(ch) || ch == ' ' ||
                  ch == '-';
         });
}

/// @param which  an adjective, or ""
std::string with_article(const std::string& face, const std::string& which) {
  const std::string before = which.empty() ? "" : which + " ";
  if (!is_plain(face)) return "the " + before + "face \"" + face + "\"";
  if (face == "left" || face == "right")
    return "the " + before + face + " face";
  return "the " + before + face;
}

Box box_of(const Loop& curves) { return mesh::bounding_box({{curves}}); }

/// The runs of neighbouring curves of one face, in all loops.
std::vector<Loop> runs_of(const Outline& outline, const std::string& face) {
  std::vector<Loop> runs;
  for (const Loop& loop : outline.loops) {
    const std::size_t first = runs.size();
    bool open = false;
    for (const Curve& c : loop) {
      if (c.face != face) {
        open = false;
        continue;
      }
      if (!open) runs.emplace_back();
      open = true;
      runs.back().push_back(c);
    }
    // The run over the loop's start was counted as two.
    if (open && runs.size() > first + 1 && loop.front().face == face) {
      Loop& start = runs[first];
      start.insert(start.begin(), runs.back().begin(), runs.back().end());
      runs.pop_back();
    }
  }
  return runs;
}

/// "left" where the face is there once more, elsewhere on the outline.
std::string which_of_several(const Section& section, const Outline& outline,
                             const Curve& here) {
  const std::vector<Loop> runs = runs_of(outline, here.face);
  if (runs.size() < 2) return "";
  const Point middle = mesh::bounding_box(outline).centre();
  const auto mine =
      std::find_if(runs.begin(), runs.end(), [&](const Loop& run) {
        return std::any_of(run.begin(), run.end(), [&](const Curve& c) {
          return c.from == here.from && c.to == here.to;
        });
      });
  const Point way = box_of(*mine).centre() - middle;
  return direction(way, section.cut, true);
}

/// Where neither neighbours nor distances tell one place from another: the
/// side of its stretch, and what it looks at where that is another way.
std::string by_direction(const Section& section, const Box& box,
                         const std::string& name, const Point& at,
                         const Point& normal, bool hole) {
  const Point half = 0.5 * box.size();
  const double thin = 0.05 * half.maxCoeff();
  Point share = Point::Zero();
  for (Eigen::Index k = 0; k < 2; ++k)
    if (half[k] > thin) share[k] = (at[k] - box.centre()[k]) / half[k];
  std::string words = "on " + name;
  const double off_middle = share.norm();
  if (off_middle < 1.0 / 3)
    words += " in the middle";
  else
    words += " towards the " + direction(share, section.cut, false);
  const bool same_way =
      off_middle >= 1.0 / 3 && share.dot(normal) > 0.6 * off_middle;
  if (!same_way && !hole && half.minCoeff() > thin)
    words += " facing " + facing(normal, section.cut);
  return words;
}

std::string end_in_words(const StretchEnd& end) {
  switch (end.kind) {
    case Kind::face: return with_article(end.name, "");
    case Kind::axis: return "the axis";
    case Kind::lacquer: return "the lacquer";
    case Kind::liquid_surface: return "the liquid surface";
    case Kind::wall: return "the tank wall";
    case Kind::solid: return end.name;
  }
  return "";
}

/// As one would measure it: "12 mm", "3.4 mm", "0.3 mm".
std::string measured_mm(double metres) {
  const double mm = 1e3 * metres;
  std::string text = mm < 0.095  ? fmt::format("{:.1g}", mm)
                     : mm < 9.95 ? fmt::format("{:.1f}", mm)
                                 : fmt::format("{:.0f}", mm);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text + " mm";
}

}  // namespace

std::string face_in_words(const std::string& face) {
  return with_article(face, "");
}

std::string place_in_words(const Section& section, const Outline& outline,
                           int loop, int curve, double t) {
  const Loop& chain = outline.loops[static_cast<std::size_t>(loop)];
  const Curve& here = chain[static_cast<std::size_t>(curve)];
  const FaceStretch stretch = face_stretch(section, outline, loop, curve, t);
  const std::string name =
      with_article(here.face, which_of_several(section, outline, here));
  const StretchEnd& before = stretch.before;
  const StretchEnd& after = stretch.after;
  const double length = before.distance + after.distance;
  const double size = box_of(chain).size().maxCoeff();
  if (!stretch.whole_loop && length < kShortShare * size &&
      length < kShortStretch)
    return "at " + name;
  const bool alike = before.kind == after.kind && before.name == after.name;
  if (stretch.whole_loop || alike) {
    const bool hole = mesh::area({{chain}}) < 0;
    return by_direction(section, stretch.box, name, mesh::point_at(here, t),
                        mesh::outward_normal(here, t), hole);
  }
  for (const StretchEnd* end : {&before, &after})
    if (end->kind == Kind::axis && end->distance < kMiddle * length)
      return "middle of " + name;
  const bool between_faces =
      before.kind == Kind::face && after.kind == Kind::face;
  if (between_faces &&
      std::abs(before.distance - after.distance) < 2 * kMiddle * length)
    return "middle of " + name;
  const StretchEnd& near = before.distance < after.distance ? before : after;
  const double at_end =
      std::max(kAtEndShare * length, std::min(kAtEnd, kMiddle * length));
  if (near.distance < at_end) return "on " + name + " at " + end_in_words(near);
  return "on " + name + ", " + measured_mm(near.distance) + " from " +
         end_in_words(near);
}

}  // namespace thinspot::solver
