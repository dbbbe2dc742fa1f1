#include "solver/test_cells.hpp"

#include "mesh/errors.hpp"
#include "solver/efficiency.hpp"
#include "solver/polarization.hpp"

#include <limits>
#include <string>
#include <vector>

namespace thinspot::solver {

namespace {

using mesh::Point;

constexpr double kNearWall = 0.047625, kFarWall = 0.127, kAcross = 0.0635;
constexpr double kMetal = 0.002;  // thickness of panel and anode [m]

/// The panel's face, from its near end.
const Point near_end(kMetal + kNearWall, 0),
    far_end(kMetal + kFarWall, kAcross);

mesh::Loop closed(const std::vector<Point>& corners, const std::string& face) {
  mesh::Loop loop;
  for (std::size_t k = 0; k < corners.size(); ++k)
    loop.push_back({corners[k], corners[(k + 1) % corners.size()], 0, face});
  return loop;
}

mesh::Solid panel() {
  const Point back(kMetal, 0);
  const mesh::Outline outline{
      {closed({near_end, near_end + back, far_end + back, far_end}, "panel")}};
  mesh::Solid s;
  s.name = s.key = "part";
  s.shape = "outline";
  s.at = mesh::bounding_box(outline).centre();
  s.drawn = mesh::moved(outline, 0, -s.at);
  return s;
}

mesh::Solid sheet(const std::string& name) {
  mesh::Solid s;
  s.name = name;
  s.key = "anode." + name;
  s.role = mesh::Role::anode;
  s.shape = "plate";
  s.sizes = {{"width", kMetal}, {"height", kAcross}};
  s.at = {kMetal / 2, kAcross / 2};
  return s;
}

/// Overpotential of a law at a density, without its offset [V]; infinite where
/// none reaches it.
class Over {
 public:
  Over(Polarization p, const Solution& solution, bool anode, double mean)
      : curve_(rescaled(p, mean), solution, limit_for(p, solution, anode)) {}

  double operator()(double density) const {
    return curve_.over(density).value_or(
        std::numeric_limits<double>::infinity());
  }

 private:
  static Polarization rescaled(Polarization p, double mean) {
    if (p.at) p.resistance.value *= *p.at / mean;
    p.at.reset();
    return p;
  }
  LawCurve curve_;
};

}  // namespace

Case panel_case(const Case& c, const TestCell& cell) {
  if (c.anodes.empty())
    throw InputError("anode", "is left out", "the test cell takes its metal");
  Case p;
  p.title = "trapezoidal test cell";
  p.section.cut = mesh::Cut::plan;
  p.section.tank.shape = mesh::Tank::Shape::outline;
  p.section.tank.drawn = {{closed({{0, 0},
                                   near_end + Point(kMetal, 0),
                                   far_end + Point(kMetal, 0),
                                   {0, kAcross}},
                                  "")}};
  p.section.solids = {panel(), sheet(c.anodes.front().name)};
  p.depth = cell.depth;
  p.solution = c.solution;
  p.part_metal = c.part_metal;
  p.cathode = c.cathode;
  Anode anode = c.anodes.front();
  anode.solid = 1;
  anode.rectifier = 0;
  p.anodes = {anode};
  p.supply.current = Quantity{cell.current, 0};
  p.supply.lead_resistance = c.supply.lead_resistance;
  Step step;
  step.duration = {cell.duration, 0};
  p.steps = {step};
  p.accuracy = c.accuracy;
  return p;
}

mesh::Point on_panel(double distance) {
  return near_end + distance * (far_end - near_end).normalized();
}

double mass_ratio(const Case& c, const TestCell& cell) {
  const double mean = cell.current / (2 * cell.area);
  const Over cathode(c.cathode, c.solution, false, mean);
  // Both sides of the gauze are one electrode.
  const Polarization none;
  const Over anode(c.anodes.empty() ? none : c.anodes.front().polarization,
                   c.solution, true, mean);
  const double bag =
      c.anodes.empty() ? 0 : c.anodes.front().bag_resistance.value;
  const auto drop = [&](double density, double gap) {
    return cathode(density) + anode(density) +
           density * (bag + gap / c.solution.conductivity.value);
  };
  // The near one takes from half of all to all.
  double low = mean, high = 2 * mean;
  for (int k = 0; k < 60; ++k) {
    const double near = 0.5 * (low + high), far = 2 * mean - near;
    const bool too_much = drop(near, cell.near_gap) > drop(far, cell.far_gap);
    (too_much ? high : low) = near;
  }
  const double near = 0.5 * (low + high);
  return depositing(c.solution, near) / depositing(c.solution, 2 * mean - near);
}

}  // namespace thinspot::solver
