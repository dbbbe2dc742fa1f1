#include "random_set_up.hpp"

#include "mesh/errors.hpp"
#include "mesh/shape.hpp"
#include "tests/solids.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace thinspot::tests {

namespace {

using mesh::Cut;
using mesh::Point;
using mesh::Role;
using mesh::Sizes;

class Lot {
 public:
  explicit Lot(std::uint64_t seed) : engine_(seed) {}
  /// Written out: the standard's distributions differ between libraries.
  double between(double low, double high) {
    return low + (high - low) * double(engine_() >> 11) * 0x1p-53;
  }
  double by_magnitude(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }
  bool chance(double share) { return between(0, 1) < share; }
  int one_of(int count) {
    return std::min(count - 1, static_cast<int>(between(0, count)));
  }

 private:
  std::mt19937_64 engine_;
};

constexpr double mm = 1e-3;

class Drawer {
 public:
  explicit Drawer(std::uint64_t seed) : lot_(seed) {}

  solver::Case draw() {
    for (;;) {
      c_ = {};
      draw_tank();
      draw_part();
      if (!fits()) continue;
      const int anodes = 1 + lot_.one_of(3);
      for (int k = 0; k < anodes; ++k)
        place("anode" + std::to_string(k + 1), Role::anode);
      if (c_.anodes.empty()) continue;
      if (lot_.chance(0.2)) place("shield", Role::shield);
      if (lot_.chance(0.1)) place("thief", Role::thief);
      if (lot_.chance(0.1)) place("stray", Role::floating);
      if (c_.section.cut == Cut::side && lot_.chance(0.25)) hang();
      draw_laws();
      draw_probes();
      return c_;
    }
  }

 private:
  void draw_tank() {
    const double kind = lot_.between(0, 1);
    mesh::SectionSpec& s = c_.section;
    s.cut = kind < 0.25  ? Cut::axisymmetric
            : kind < 0.4 ? Cut::plan
                         : Cut::side;
    s.tank.width = lot_.between(60, 200) * mm;
    s.tank.height = lot_.between(60, 200) * mm;
    s.tank.level = lot_.between(0.8, 0.95) * s.tank.height;
    if (s.cut == Cut::plan && lot_.chance(0.5)) {
      s.tank.shape = mesh::Tank::Shape::round;
      s.tank.height = 0;
    }
  }

  double tank_height() const {
    const mesh::Tank& t = c_.section.tank;
    if (t.shape == mesh::Tank::Shape::round) return t.width;
    return c_.section.cut == Cut::plan ? t.height : t.level;
  }

  /// Sharp, or rounded by some part of what is there to be rounded.
  double a_radius(double most) {
    return lot_.chance(0.3) ? 0 : lot_.between(0.1, 0.9) * most;
  }

  std::pair<std::string, Sizes> a_part() {
    const double size = lot_.by_magnitude(6, 40) * mm;
    const double thick = lot_.by_magnitude(0.05, 0.3) * size;
    if (c_.section.cut == Cut::axisymmetric) {
      if (lot_.chance(0.6))
        return {"coin",
                {{"diameter", size},
                 {"thickness", thick},
                 {"edge_radius", a_radius(0.5 * thick)}}};
      return {"rod", {{"diameter", thick}, {"length", size}}};
    }
    switch (lot_.one_of(6)) {
      case 0:
        return {"coin",
                {{"diameter", size},
                 {"thickness", thick},
                 {"edge_radius", a_radius(0.5 * thick)}}};
      case 1:
        return {"spoon",
                {{"chord", size},
                 {"sagitta", lot_.between(0.1, 0.4) * size},
                 {"thickness", 0.3 * thick}}};
      case 2:
        return {"bracket",
                {{"leg_1", size},
                 {"leg_2", lot_.between(0.5, 1) * size},
                 {"thickness", 0.7 * thick},
                 {"inside_radius", a_radius(0.5 * thick)},
                 {"outside_radius", a_radius(0.5 * thick)}}};
      case 3:
        return {"channel",
                {{"width", size},
                 {"depth", lot_.between(0.4, 1) * size},
                 {"wall", 0.5 * thick},
                 {"bottom_radius", a_radius(0.5 * thick)}}};
      case 4:
        return {"plate",
                {{"width", thick},
                 {"height", size},
                 {"corner_radius", a_radius(0.5 * thick)}}};
      default: return {"rod", {{"diameter", 0.3 * size}}};
    }
  }

  void draw_part() {
    const auto [shape, sizes] = a_part();
    mesh::Solid part = solid(Role::part, "part", shape, sizes, {0, 0});
    const double w = c_.section.tank.width, h = tank_height();
    part.at = {lot_.between(0.3, 0.7) * w, lot_.between(0.3, 0.7) * h};
    if (c_.section.cut == Cut::axisymmetric)
      part.at.x() = 0;
    else if (lot_.chance(0.5))
      part.turn = lot_.between(0, std::numbers::pi);
    c_.section.solids = {part};
    c_.depth = c_.section.cut == Cut::axisymmetric ? std::nullopt
                                                   : std::optional(30 * mm);
  }

  bool fits() const {
    try {
      mesh::build_section(c_.section);
      return true;
    } catch (const InputError&) {
      return false;
    }
  }

  /// Somewhere in the liquid; left out where it finds no place.
  void place(const std::string& name, Role role) {
    const double w = c_.section.tank.width, h = tank_height();
    const bool large = role == Role::anode;
    for (int attempt = 0; attempt < 20; ++attempt) {
      const Point at(lot_.between(0, 1) * w * (half() ? 0.5 : 1),
                     lot_.between(0.1, 0.9) * h);
      const double size = (large ? lot_.between(15, 70) : lot_.between(4, 20));
      mesh::Solid s =
          lot_.chance(0.25)
              ? solid(role, name, "rod", {{"diameter", 0.2 * size * mm}}, at)
              : solid(
                    role, name, "plate",
                    {{"width", lot_.between(1, 4) * mm}, {"height", size * mm}},
                    at);
      if (half() && s.shape == "rod")
        s = solid(role, name, "plate",
                  {{"width", 0.1 * size * mm}, {"height", 0.1 * size * mm}},
                  at);
      const bool lies = lot_.chance(0.2);
      if (lies && s.shape == "plate" && !half()) s.turn = std::numbers::pi / 2;
      c_.section.solids.push_back(s);
      if (fits()) {
        enter(name, role);
        return;
      }
      c_.section.solids.pop_back();
    }
  }

  bool half() const { return c_.section.cut == Cut::axisymmetric; }

  void enter(const std::string& name, Role role) {
    const std::size_t index = c_.section.solids.size() - 1;
    if (role == Role::anode) {
      solver::Anode a;
      a.name = name;
      a.solid = index;
      a.metal = "copper";
      c_.anodes.push_back(a);
    } else if (role == Role::thief) {
      solver::Thief t;
      t.name = name;
      t.solid = index;
      t.resistance.value = lot_.chance(0.5) ? lot_.between(0, 1) : 0;
      c_.thieves.push_back(t);
    } else if (role == Role::floating) {
      solver::Floating f;
      f.name = name;
      f.solid = index;
      f.metal = "copper";
      f.resistance.value = lot_.by_magnitude(1e-4, 1e-2);
      c_.floating.push_back(f);
    }
  }

  /// A clip from the part's highest place up out of the liquid.
  void hang() {
    const mesh::PlacedSolid part =
        mesh::build_section(c_.section).solids.front();
    const mesh::Box box = mesh::bounding_box(part.outline);
    Point top = part.outline.loops[0][0].from;
    for (const mesh::Curve& curve : part.outline.loops[0])
      for (double t : {0.0, 0.25, 0.5, 0.75, 1.0})
        if (const Point p = mesh::point_at(curve, t); p.y() > top.y()) top = p;
    const double low = top.y() - 0.02 * box.size().maxCoeff();
    const double high = c_.section.tank.height;
    mesh::Solid clip =
        solid(Role::clip, "clip", "plate",
              {{"width", lot_.between(0.5, 2) * mm}, {"height", high - low}},
              {top.x(), 0.5 * (low + high)});
    c_.section.solids.push_back(clip);
    if (!fits()) {
      c_.section.solids.pop_back();
      return;
    }
    c_.clips.push_back({"clip", {c_.section.solids.size() - 1}, {}});
    if (lot_.chance(0.7)) c_.target.contact_margin = lot_.between(0.2, 2) * mm;
  }

  void draw_laws() {
    c_.title = "by lot";
    c_.solution.metal = {"copper", 0.063546, 2, 8960, "IUPAC"};
    c_.solution.conductivity.value = lot_.by_magnitude(0.3, 60);
    const double kappa = c_.solution.conductivity.value;
    if (!lot_.chance(0.2))
      c_.cathode.resistance.value = lot_.by_magnitude(0.1, 100) * mm / kappa;
    const double density = lot_.by_magnitude(20, 500);
    if (c_.cathode.resistance.value > 0 && lot_.chance(0.4))
      c_.cathode.at = density;
    for (solver::Anode& a : c_.anodes)
      if (lot_.chance(0.5))
        a.polarization.resistance.value =
            lot_.by_magnitude(0.1, 50) * mm / kappa;
    const double supply = lot_.between(0, 1);
    if (supply < 0.6)
      c_.supply.current_density = solver::Quantity{density, 0};
    else if (supply < 0.8 || c_.cathode.at)
      c_.supply.current = solver::Quantity{lot_.by_magnitude(0.02, 2), 0};
    else
      c_.supply.voltage = solver::Quantity{lot_.between(0.3, 3), 0};
    c_.supply.lead_resistance.value = lot_.chance(0.5) ? 0.1 : 0;
    c_.steps = {{{3600, 0}}};
    c_.accuracy.averaging_length = lot_.by_magnitude(0.05, 0.5) * mm;
    c_.accuracy.tolerance = lot_.chance(0.5) ? 1e-3 : 1e-2;
  }

  void draw_probes() {
    const Point at = c_.section.solids.front().at;
    const int count = lot_.one_of(3);
    for (int k = 0; k < count; ++k) {
      const double angle = lot_.between(0, 2 * std::numbers::pi);
      const double x = at.x() + 50 * mm * std::cos(angle);
      c_.probes.push_back(
          {"probe" + std::to_string(k + 1),
           {half() ? std::abs(x) : x, at.y() + 50 * mm * std::sin(angle)}});
    }
  }

  Lot lot_;
  solver::Case c_;
};

}  // namespace

solver::Case random_set_up(std::uint64_t seed) { return Drawer(seed).draw(); }

}  // namespace thinspot::tests
