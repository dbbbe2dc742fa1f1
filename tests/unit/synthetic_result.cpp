#include "tests/unit/synthetic_result.hpp"

#include "tests/unit/sample_result.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace thinspot::tests {

namespace {

using mesh::Point;
using mesh::Section;

mesh::Solid part_solid(const Synthetic& wanted) {
  mesh::Solid solid =
      plate("part", mesh::Role::part, wanted.part_size,
            wanted.cut == mesh::Cut::axisymmetric ? Point(0, wanted.part_at.y())
                                                  : wanted.part_at);
  solid.shape = wanted.shape;
  if (wanted.shape != "plate") solid.sizes = wanted.sizes;
  solid.turn = wanted.turn;
  return solid;
}

void add_parts(const Synthetic& wanted, mesh::SectionSpec& spec) {
  spec.solids.push_back(part_solid(wanted));
  if (wanted.rack.empty()) return;
  spec.solids.clear();
  for (std::size_t k = 0; k < wanted.rack.size(); ++k) {
    mesh::Solid copy = part_solid(wanted);
    copy.copy = static_cast<int>(k) + 1;
    copy.name = "part " + std::to_string(k + 1);
    copy.key = "part." + std::to_string(k + 1);
    copy.at = wanted.rack[k];
    spec.solids.push_back(copy);
  }
}

double distance_to(const mesh::Outline& outline, const Point& p) {
  double least = 1e9;
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop)
      least = std::min(least, mesh::nearest(c, p).distance);
  return least;
}

double potential_at(const Section& section, const Point& p) {
  double part = 1e9, anode = 1e9;
  for (const mesh::PlacedSolid& solid : section.solids) {
    if (solid.spec.role == mesh::Role::part)
      part = std::min(part, distance_to(solid.outline, p));
    if (solid.spec.role == mesh::Role::anode)
      anode = std::min(anode, distance_to(solid.outline, p));
  }
  return part / (part + anode);
}

bool in_liquid(const Section& section, const Point& p) {
  return mesh::contains(section.liquid_bounds, p) &&
         std::none_of(section.solids.begin(), section.solids.end(),
                      [&](const mesh::PlacedSolid& s) {
                        return mesh::contains(s.outline, p);
                      });
}

/// Grid lines about a thirtieth of the tank apart that keep to the solids'
/// edges.
std::vector<double> grid_lines(const Section& section, int axis) {
  std::vector<double> edges;
  const auto add = [&](const mesh::Box& box) {
    edges.push_back(box.low[axis]);
    edges.push_back(box.high[axis]);
  };
  const mesh::Box bounds = mesh::bounding_box(section.liquid_bounds);
  add(bounds);
  for (const auto& solid : section.solids)
    add(mesh::bounding_box(solid.outline));
  std::sort(edges.begin(), edges.end());
  const double step = bounds.size().maxCoeff() / 33;
  std::vector<double> lines;
  for (std::size_t k = 0; k + 1 < edges.size(); ++k) {
    const double width = edges[k + 1] - edges[k];
    const int parts = static_cast<int>(std::ceil(width / step));
    for (int i = 0; i < parts; ++i)
      lines.push_back(edges[k] + width * i / parts);
  }
  lines.push_back(edges.back());
  lines.erase(std::unique(lines.begin(), lines.end(),
                          [](double a, double b) { return b - a < 1e-9; }),
              lines.end());
  return lines;
}

mesh::Mesh mesh_of(const Section& section) {
  const std::vector<double> x = grid_lines(section, 0);
  const std::vector<double> y = grid_lines(section, 1);
  std::map<std::pair<long, long>, int> numbers;
  std::vector<Point> nodes;
  const auto node = [&](const Point& p) {
    const auto [entry, fresh] = numbers.try_emplace(
        {std::lround(p.x() * 1e9), std::lround(p.y() * 1e9)},
        static_cast<int>(nodes.size()));
    if (fresh) nodes.push_back(p);
    return entry->second;
  };
  std::vector<Eigen::Matrix<int, 6, 1>> triangles;
  const auto add = [&](const Point& a, const Point& b, const Point& c) {
    Eigen::Matrix<int, 6, 1> six;
    six << node(a), node(b), node(c), node(0.5 * (a + b)), node(0.5 * (b + c)),
        node(0.5 * (c + a));
    triangles.push_back(six);
  };
  for (std::size_t i = 0; i + 1 < x.size(); ++i)
    for (std::size_t j = 0; j + 1 < y.size(); ++j) {
      const Point a(x[i], y[j]), c(x[i + 1], y[j + 1]);
      const Point b(c.x(), a.y()), d(a.x(), c.y());
      if (!in_liquid(section, 0.5 * (a + c))) continue;
      add(a, b, c);
      add(a, c, d);
    }
  mesh::Mesh m;
  m.cut = section.cut;
  m.nodes.resize(2, static_cast<Eigen::Index>(nodes.size()));
  for (std::size_t k = 0; k < nodes.size(); ++k)
    m.nodes.col(static_cast<Eigen::Index>(k)) = nodes[k];
  m.triangles.resize(6, static_cast<Eigen::Index>(triangles.size()));
  for (std::size_t k = 0; k < triangles.size(); ++k)
    m.triangles.col(static_cast<Eigen::Index>(k)) = triangles[k];
  return m;
}

bool touches_another(const Section& section, std::size_t solid,
                     const Point& p) {
  for (std::size_t k = 0; k < section.solids.size(); ++k)
    if (k != solid && distance_to(section.solids[k].outline, p) < 1e-9)
      return true;
  return false;
}

/// One loop: 120 points to it, and corners.
void add_loop(const Synthetic& wanted, const Section& section,
              std::size_t solid, int number, solver::PartResult& part) {
  const mesh::Loop& loop =
      section.solids[solid].outline.loops[static_cast<std::size_t>(number)];
  double around = 0;
  for (const mesh::Curve& c : loop) around += mesh::length(c);
  // The loop's lowest point is where a bottom curve begins.
  std::size_t lowest = 0;
  for (std::size_t k = 0; k < loop.size(); ++k)
    if (loop[k].from.y() < loop[lowest].from.y()) lowest = k;
  double arc = 0;
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const mesh::Curve& c = loop[(lowest + k) % loop.size()];
    const double length = mesh::length(c);
    const bool ends_at_axis =
        loop[(lowest + k + 1) % loop.size()].face == "axis";
    if (c.face == "axis") {
      arc += length;
      continue;
    }
    const int pieces = 2 + static_cast<int>(120 * length / around);
    auto face = std::find_if(part.faces.begin(), part.faces.end(),
                             [&](const auto& f) { return f.name == c.face; });
    if (face == part.faces.end()) {
      part.faces.push_back({});
      part.faces.back().name = c.face;
      face = part.faces.end() - 1;
    }
    for (int i = 0; i < pieces + (ends_at_axis ? 1 : 0); ++i) {
      const double t = static_cast<double>(i) / pieces;
      solver::SurfacePoint p;
      p.at = mesh::point_at(c, t);
      p.normal = mesh::outward_normal(c, t);
      p.loop = number;
      p.arc = arc + t * length;
      p.face = static_cast<int>(face - part.faces.begin());
      p.wetted = (section.cut == mesh::Cut::plan || p.at.y() < wanted.level) &&
                 !c.masked && !touches_another(section, solid, p.at);
      p.judged = !(wanted.unjudged && c.face == "upper edge");
      p.weight = 1e-6;
      // Copies differ a little, the later ones being thicker.
      const double more = 1 + 0.04 * section.solids[solid].spec.copy;
      const double wave =
          wanted.spots > 0
              ? std::cos(2 * std::numbers::pi * wanted.spots * p.arc / around)
              : 0;
      p.thickness = more * wanted.thickness * (1 + wanted.swing * wave);
      p.current_density = 200 * (1 + wanted.swing * wave);
      part.surface.push_back(p);
    }
    arc += length;
  }
}

/// The surface's point nearest to a share of the way around.
solver::Spot spot_at(const solver::PartResult& part, double share) {
  const double wanted = share * part.surface.back().arc;
  const solver::SurfacePoint& s = *std::min_element(
      part.surface.begin(), part.surface.end(),
      [&](const auto& a, const auto& b) {
        return std::abs(a.arc - wanted) < std::abs(b.arc - wanted);
      });
  const std::string face = part.faces[static_cast<std::size_t>(s.face)].name;
  return {s.at, s.arc, face, "middle of the " + face, s.thickness};
}

solver::PartResult part_of(const Synthetic& wanted, const Section& section,
                           std::size_t solid) {
  solver::PartResult part;
  part.name = section.solids[solid].spec.name;
  part.solid = solid;
  const auto& loops = section.solids[solid].outline.loops;
  for (std::size_t k = 0; k < loops.size(); ++k)
    add_loop(wanted, section, solid, static_cast<int>(k), part);
  const double mean =
      wanted.thickness * (1 + 0.04 * section.solids[solid].spec.copy);
  const double a = wanted.spots > 0 ? wanted.swing : 0;
  part.thickness.value = {mean * (1 - a), mean, mean * (1 + a)};
  part.current_density.value = {200 * (1 - a), 200, 200 * (1 + a)};
  const double band = wanted.banded ? 0.12 : 0;
  const auto around = [&](double v) {
    return solver::Interval{v * (1 - band), v * (1 + band)};
  };
  part.thickness.min_band = around(part.thickness.value.min);
  part.thickness.mean_band = around(part.thickness.value.mean);
  part.thickness.max_band = around(part.thickness.value.max);
  for (int k = 0; k < wanted.spots; ++k) {
    part.heavy_spots.push_back(
        spot_at(part, static_cast<double>(k) / wanted.spots));
    part.thin_spots.push_back(spot_at(part, (k + 0.5) / wanted.spots));
  }
  return part;
}

/// The only step, with all that it leaves.
solver::StepResult whole_step(const solver::Result& r) {
  solver::StepResult step = only_step(r.cell, 0.3);
  step.section = r.section;
  for (const solver::PartResult& part : r.parts) {
    solver::StepResult::OfPart& of = step.parts.emplace_back();
    of.thickness = part.thickness.value;
    const auto count = static_cast<Eigen::Index>(part.surface.size());
    of.grown.resize(count);
    of.current_density.resize(count);
    for (Eigen::Index n = 0; n < count; ++n) {
      const auto& point = part.surface[static_cast<std::size_t>(n)];
      of.grown(n) = point.thickness;
      of.current_density(n) = point.current_density;
    }
  }
  return step;
}

}  // namespace

mesh::Solid plate(std::string name, mesh::Role role, Point size, Point at) {
  mesh::Solid solid;
  solid.name = name;
  solid.key = name;
  solid.role = role;
  solid.shape = "plate";
  solid.sizes = {{"width", size.x()}, {"height", size.y()}};
  solid.at = at;
  return solid;
}

Section synthetic_section(const Synthetic& wanted) {
  mesh::SectionSpec spec;
  spec.cut = wanted.cut;
  const bool axis = wanted.cut == mesh::Cut::axisymmetric;
  const double width = wanted.tank.x();
  spec.tank.shape = axis ? mesh::Tank::Shape::round : mesh::Tank::Shape::box;
  spec.tank.width = axis ? 2 * width : width;
  spec.tank.height = wanted.tank.y();
  spec.tank.level = wanted.level;
  if (wanted.tank_shape) {
    spec.tank.shape = mesh::Tank::Shape::outline;
    spec.tank.drawn = *wanted.tank_shape;
  }
  add_parts(wanted, spec);
  // Left and right of the part in turn, outermost first.
  for (std::size_t k = 0; k < wanted.anodes.size(); ++k) {
    const double in = (0.3 + 0.5 * static_cast<double>(k / 2)) / 9 * width;
    const bool left = k % 2 == 0 && !axis;
    const Point size(width / 45, wanted.tank.y() / 2);
    spec.solids.push_back(
        plate(wanted.anodes[k], mesh::Role::anode, size,
              {left ? in : width - in, wanted.tank.y() * 5 / 12}));
    spec.solids.back().key = "anode." + std::to_string(k);
  }
  for (const mesh::Solid& solid : wanted.more) spec.solids.push_back(solid);
  spec.masks = wanted.masks;
  return mesh::build_section(spec);
}

solver::Result synthetic_result(const Synthetic& wanted) {
  solver::Result r;
  r.section = synthetic_section(wanted);
  r.mesh = mesh_of(r.section);
  const Eigen::Index n = r.mesh.nodes.cols();
  r.potential.resize(n);
  r.current_density.resize(2, n);
  const double kappa = 20, step = 1e-6;  // [S/m], [m]
  for (Eigen::Index k = 0; k < n; ++k) {
    const Point p = r.mesh.nodes.col(k);
    const auto slope = [&](const Point& way) {
      return (potential_at(r.section, p + step * way) -
              potential_at(r.section, p - step * way)) /
             (2 * step);
    };
    r.potential[k] = potential_at(r.section, p);
    r.current_density.col(k) << -kappa * slope({1, 0}), -kappa * slope({0, 1});
  }
  for (std::size_t k = 0; k < r.section.solids.size(); ++k) {
    const mesh::Role role = r.section.solids[k].spec.role;
    if (role == mesh::Role::part)
      r.parts.push_back(part_of(wanted, r.section, k));
    if (role == mesh::Role::anode) {
      solver::Anode anode;
      anode.solid = k;
      anode.soluble = !wanted.inert;
      r.used.anodes.push_back(anode);
    }
  }
  r.used.title = wanted.title;
  r.used.wires.push_back({"wire", 0.8e-3, 35e-3, false});
  r.used.target.burning_current_density = 500;
  r.used.target.working_range = {{50, 400}};
  if (wanted.target > 0) r.used.target.thickness = wanted.target;
  r.cell = {0.33, 1.2, {1.1, 1.3}, {0.33, 0.33}, "current", 3.6};
  r.used.steps = {{{2400, 0}}};
  for (const mesh::PlacedSolid& solid : r.section.solids)
    r.used.section.solids.push_back(solid.spec);
  r.steps = {whole_step(r)};
  return r;
}

std::vector<HardCase> hard_cases() {
  const std::string hostile =
      "<b>&amp;</b> \"two\" 'one' ]]> @@SUMMARY@@ </script> \x01\xff \xE2\x80"
      "\xA8 and a title that goes on for much longer than any page is wide, "
      "so that it has to be cut somewhere before it ends";
  const std::string wide(80, 'W');
  std::vector<HardCase> cases{
      {"plain", {}},
      {"seen from above", {.cut = mesh::Cut::plan}},
      {"about an axis",
       {.cut = mesh::Cut::axisymmetric, .part_size = {40e-3, 3e-3}}},
      {"hostile names",
       {.title = hostile, .anodes = {hostile, wide, "<&>", ""}}},
      {"crowd of anodes",
       {.anodes = {"front left sheet", "front right sheet", "back left sheet",
                   "back right sheet", "left basket of pieces",
                   "right basket of pieces", "seventh", "eighth"}}},
      {"crowd of spots", {.spots = 12}},
      {"tiny part", {.part_size = {0.5e-3, 0.5e-3}, .spots = 5}},
      {"flat part", {.part_size = {36e-3, 1e-3}, .spots = 4}},
      {"part fills the tank", {.part_size = {50e-3, 80e-3}, .spots = 5}},
      {"half out of the liquid",
       {.part_size = {4e-3, 60e-3}, .part_at = {45e-3, 80e-3}, .level = 0.08}},
      {"nothing but the curve",
       {.title = "",
        .spots = 0,
        .unjudged = false,
        .banded = false,
        .target = 0}},
      {"target out of reach", {.target = 1e-3}},
      {"hardly any coating", {.thickness = 1e-9}},
      {"even", {.swing = 0}}};
  return cases;
}

}  // namespace thinspot::tests
