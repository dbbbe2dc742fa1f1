#include "solver/assemble_result.hpp"

#include "solver/accuracy_notes.hpp"
#include "solver/cautions.hpp"
#include "solver/electrode_results.hpp"
#include "solver/growth_notes.hpp"
#include "solver/part_result.hpp"
#include "solver/wagner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;

CellResult describe_cell(const Certified& solved, const Case& c) {
  const WorkingPoint& w = solved.outcome.point;
  CellResult cell;
  cell.current = w.total_current;
  cell.voltage = w.terminal_voltage;
  cell.voltage_band = {cell.voltage, cell.voltage};
  cell.current_band = {cell.current, cell.current};
  cell.limited_by = w.limited_by;
  cell.resistance = w.terminal_voltage / w.total_current;
  cell.voltage_mesh_error = solved.errors.voltage;
  cell.resistance_mesh_error = solved.errors.resistance;
  for (std::size_t r = 0; r < w.rectifiers.size(); ++r) {
    const AtRectifier& at = w.rectifiers[r];
    const MeshErrors::OfRectifier& off = solved.errors.rectifiers[r];
    cell.rectifiers.push_back({c.rectifiers[r].name,
                               at.current,
                               at.voltage,
                               {at.current, at.current},
                               {at.voltage, at.voltage},
                               at.limited_by,
                               off.current,
                               off.voltage});
  }
  return cell;
}

/// @param nodes  of each part's surface points
StepResult describe_step(const Schedule& schedule, const Case& c,
                         const std::vector<std::vector<int>>& nodes,
                         std::size_t k) {
  const Step& said = c.steps[k];
  StepResult step;
  step.duration = said.duration.value;
  step.motion = said.motion;
  step.turning = said.turning;
  step.off = said.off;
  step.lifted = said.lifted;
  step.parts.resize(schedule.coats.size());
  std::size_t first = 0, end = 0;
  for (std::size_t n = 0; n < schedule.phases.size(); ++n) {
    if (schedule.phases[n].step < k) first = n + 1;
    if (schedule.phases[n].step <= k) end = n + 1;
  }
  step.angles = static_cast<int>(end - first);
  // The last one is where the part stood at first.
  const Certified& solved = *schedule.steps[end - 1].solved;
  step.section = solved.model.section;
  step.cell = describe_cell(solved, c);
  const Solution& solution = schedule.steps[end - 1].used.solution;
  if (std::any_of(c.steps.begin(), c.steps.end(), [](const Step& s) {
        return s.temperature || s.conductivity;
      })) {
    step.temperature = solution.temperature;
    step.conductivity = solution.conductivity.value;
  }
  double growth = 0;
  for (std::size_t n = first; n < end; ++n) growth += schedule.steps[n].growth;
  for (std::size_t n = first; n < end; ++n) {
    const SolvedStep& phase = schedule.steps[n];
    const double share =
        growth > 0 ? phase.growth / growth : 1 / double(end - first);
    for (const PartOutcome& part : phase.solved->outcome.parts) {
      step.part_current += share * part.current;
      step.max_current_density =
          std::max(step.max_current_density, part.current_density_spread.max);
    }
  }
  for (std::size_t p = 0; p < schedule.coats.size(); ++p) {
    const Coat& coat = schedule.coats[p];
    const Eigen::VectorXd grown = coat.after(static_cast<Index>(end));
    const auto from = static_cast<Index>(first);
    const auto phases = static_cast<Index>(end) - from;
    const Eigen::VectorXd density = coat.density.middleCols(from, phases) *
                                    coat.growth.segment(from, phases);
    double volume = 0;
    for (std::size_t j = 0; j < end; ++j)
      volume += schedule.steps[j].growth *
                schedule.steps[j].solved->outcome.parts[p].current;
    if (schedule.growth || schedule.by_density())
      volume = volume_under(coat, grown);
    StepResult::OfPart& of = step.parts[p];
    of.thickness =
        spread_of(coat, grown, volume, c.accuracy.averaging_length).thickness;
    const auto count = static_cast<Index>(nodes[p].size());
    of.grown = of.current_density = Eigen::VectorXd::Zero(count);
    for (Index n = 0; n < count; ++n) {
      const int node = nodes[p][static_cast<std::size_t>(n)];
      if (node < 0) continue;
      of.grown(n) = grown(node);
      of.current_density(n) = growth > 0 ? density(node) / growth : 0;
    }
  }
  step.mean_current_density = step.part_current / solved.model.scale.part_area;
  step.burning = c.target.burning_current_density &&
                 step.max_current_density > *c.target.burning_current_density;
  return step;
}

std::optional<TargetResult> judge(const Case& c, const Schedule& schedule,
                                  const Bands& bands) {
  if (!c.target.thickness) return std::nullopt;
  TargetResult t;
  t.wanted = *c.target.thickness;
  t.least = schedule.spreads.front().least_judged.value;
  t.least_band = bands.parts.front().least_judged;
  for (std::size_t p = 0; p < schedule.spreads.size(); ++p) {
    t.least = std::min(t.least, schedule.spreads[p].least_judged.value);
    if (bands.parts[p].least_judged.low < t.least_band.low)
      t.least_band = bands.parts[p].least_judged;
    t.least_mesh_error =
        std::max(t.least_mesh_error, schedule.errors[p].least_judged);
  }
  t.met = t.least >= t.wanted;
  t.shortfall = t.met ? 0 : t.wanted - t.least;
  if (t.least > 0) t.time_needed = total_duration(c) * t.wanted / t.least;
  t.chance = bands.chance;
  return t;
}

RackResult describe_rack(const std::vector<PartResult>& parts) {
  RackResult rack;
  rack.copies = parts.size();
  double sum = 0, area = 0;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const Spread& t = parts[k].thickness.value;
    sum += t.mean * parts[k].area;
    area += parts[k].area;
    if (t.mean < parts[rack.thinnest].thickness.value.mean) rack.thinnest = k;
    if (t.mean > parts[rack.heaviest].thickness.value.mean) rack.heaviest = k;
    rack.least = k == 0 ? t.min : std::min(rack.least, t.min);
    rack.largest = std::max(rack.largest, t.max);
  }
  rack.mean_thickness = {parts[rack.thinnest].thickness.value.mean, sum / area,
                         parts[rack.heaviest].thickness.value.mean};
  return rack;
}

/// At the part's own nodes the law knows what crosses the surface better than
/// the gradient of the potential beside it.
void follow_the_law(const Model& model, const Surface& surface,
                    const PartOutcome& part, Eigen::Matrix2Xd& density) {
  const Electrodes& electrodes = model.response.electrodes();
  const Electrode& electrode = electrodes.each[surface.electrode];
  const mesh::Outline& outline = solid_of(model, surface).outline;
  const auto n = static_cast<Index>(electrode.rows.size());
  Eigen::Matrix2Xd normal = Eigen::Matrix2Xd::Zero(2, n);
  for (const SurfaceLoop& loop : surface.loops)
    for (const SurfaceEdge& e : loop.edges) {
      const mesh::Curve& curve = mesh::curve_of(outline, loop.loop, e.curve);
      const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
      for (std::size_t k = 0; k < 3; ++k)
        normal.col(e.node[k]) += mesh::outward_normal(
            curve, fraction_of(loop, outline, e.curve, arcs[k]));
    }
  for (Index k = 0; k < n; ++k) {
    const mesh::Point out = normal.col(k).normalized();
    auto at = density.col(electrodes.nodes.mesh_node[static_cast<std::size_t>(
        electrode.rows[static_cast<std::size_t>(k)])]);
    at -= (at.dot(out) + part.current_density(k)) * out;
  }
}

void set_bands(PartResult& part, const Bands::OfPart& b,
               const MeshErrors::OfPart& density,
               const MeshErrors::OfPart& thickness,
               const std::vector<int>& nodes) {
  part.current_density.mesh_error = {density.least, density.mean,
                                     density.largest};
  part.thickness.mesh_error = {thickness.least, thickness.mean,
                               thickness.largest};
  part.thickness.min_band = b.least;
  part.thickness.mean_band = b.mean;
  part.thickness.max_band = b.largest;
  part.current_density.min_band = b.least_density;
  part.current_density.mean_band = b.mean_density;
  part.current_density.max_band = b.largest_density;
  for (std::size_t n = 0; n < nodes.size(); ++n) {
    SurfacePoint& point = part.surface[n];
    point.thickness_band = {point.thickness, point.thickness};
    if (nodes[n] >= 0 && !b.along.empty())
      point.thickness_band = b.along[static_cast<std::size_t>(nodes[n])];
  }
}

void add_parts(const Schedule& schedule, const Case& c, const Bands& bands,
               Result& result) {
  const Certified& last = *schedule.last().solved;
  std::vector<std::vector<int>> nodes;
  for (std::size_t p = 0; p < schedule.coats.size(); ++p) {
    DescribedPart described = describe_part(schedule, c, p);
    set_bands(described.part, bands.parts[p], last.errors.parts[p],
              schedule.errors[p], described.node);
    follow_the_law(last.model, last.model.surfaces[p], last.outcome.parts[p],
                   result.current_density);
    result.parts.push_back(std::move(described.part));
    nodes.push_back(std::move(described.node));
  }
  for (std::size_t k = 0; k < c.steps.size(); ++k)
    result.steps.push_back(describe_step(schedule, c, nodes, k));
  CellResult& cell = result.steps.back().cell;
  cell.voltage_band = bands.voltage;
  cell.current_band = bands.current;
  for (std::size_t r = 0; r < cell.rectifiers.size(); ++r) {
    cell.rectifiers[r].voltage_band = bands.rectifiers[r].voltage;
    cell.rectifiers[r].current_band = bands.rectifiers[r].current;
  }
  result.cell = cell;
}

/// Place of a probe on the first part as drawn.
mesh::Point on_the_part(const Schedule& schedule, const Probe& probe) {
  for (const mesh::PlacedSolid& s : schedule.drawn.solids)
    if (s.spec.role == mesh::Role::part)
      return mesh::nearest(s.outline, probe.at).at;
  return probe.at;
}

void add_probes(const Schedule& schedule, const Case& c, Result& result) {
  const Certified& last = *schedule.last().solved;
  for (std::size_t k = 0; k < c.probes.size(); ++k) {
    const ProbeOutcome& p = last.outcome.probes[k];
    result.probes.push_back({c.probes[k].name,
                             on_the_part(schedule, c.probes[k]), p.face,
                             p.window.value, schedule.probe_thickness[k],
                             last.errors.probes[k], schedule.probe_errors[k]});
  }
}

/// On which mesh the phases of a step were computed.
std::string mesh_of_angles(const Schedule& schedule, std::size_t step) {
  for (std::size_t k = 0; k < schedule.phases.size(); ++k) {
    if (schedule.phases[k].step != step) continue;
    const int turnable = schedule.steps[k].turnable;
    if (turnable < 0) break;
    const Turnable& t =
        schedule.turns[static_cast<std::size_t>(turnable)].turnable;
    return fmt::format(
        "all on one mesh, parted at a circle of {:.3g} mm about the part and "
        "joined by {} waves of it",
        1e3 * t.section.discs.front().radius, t.response->waves());
  }
  return "each on a mesh of its own, as no circle about the part is free";
}

/// With how many angles a part that turns without a stop was computed.
std::vector<std::string> turning_notes(const Schedule& schedule,
                                       const Case& c) {
  std::vector<std::string> notes;
  for (std::size_t k = 0; k < c.steps.size(); ++k)
    if (schedule.angles[k] > 1)
      notes.push_back(fmt::format(
          "Step {}: the part is computed at {} angles of its turn, {}; half "
          "as many would change the thickness by {:.1g} % of the mean at most.",
          k + 1, schedule.angles[k], mesh_of_angles(schedule, k),
          100 * schedule.turning_errors.front() /
              schedule.spreads.front().thickness.mean));
  return notes;
}

}  // namespace

Result assemble_result(const Schedule& schedule, const Case& c,
                       const Bands& bands) {
  const Certified& last = *schedule.last().solved;
  const Case& used = schedule.last().used;
  const Model& model = last.model;
  const Outcome& outcome = last.outcome;
  const WorkingPoint& w = outcome.point;
  Result result;
  // Solids as they stand in the last step, which is what is shown.
  result.used = used;
  result.used.steps = c.steps;
  result.used.probes = c.probes;
  result.used.solution = c.solution;
  result.section = model.section;
  result.mesh = model.mesh;
  result.depth =
      model.section.cut == mesh::Cut::axisymmetric ? 0 : model.scale.depth;
  result.potential = model.response.everywhere(w.answers.potential * w.drive);
  result.current_density = -used.solution.conductivity.value *
                           nodal_gradient(model.mesh, result.potential);
  add_parts(schedule, c, bands, result);
  add_probes(schedule, c, result);
  result.anodes = describe_anodes(schedule, c);
  result.clips = describe_cathodes(model, outcome, mesh::Role::clip);
  result.thieves = describe_cathodes(model, outcome, mesh::Role::thief);
  result.floating = describe_floating(model, outcome);
  result.wires = describe_wires(c, outcome, model.scale);
  if (c.rack) result.rack = describe_rack(result.parts);
  if (schedule.growth) result.growth = describe_growth(schedule, c);
  const Wagner wagner = wagner_of(model, used, w, model.surfaces.front());
  result.wagner_number = wagner.number;
  result.wagner_length = wagner.length;
  result.target = judge(c, schedule, bands);
  result.forecast = bands.forecast;
  result.cautions = cautions_for(c);
  result.notes = c.notes;
  for (const std::string& note : model_notes(c, result.wagner_number))
    result.notes.push_back(note);
  for (const std::string& note : turning_notes(schedule, c))
    result.notes.push_back(note);
  for (const std::string& note : growth_notes(schedule, c))
    result.notes.push_back(note);
  for (const std::string& note : accuracy_notes(last, used))
    result.notes.push_back(note);
  if (!bands.forecast.why.empty()) result.notes.push_back(bands.forecast.why);
  result.notes.insert(result.notes.end(), model.mesh.notes.begin(),
                      model.mesh.notes.end());
  for (const SolvedStep& step : schedule.steps) {
    const WorkingPoint& at = step.solved->outcome.point;
    result.evidence.relative_residual = std::max(
        result.evidence.relative_residual, at.answers.relative_residual);
    result.evidence.current_imbalance =
        std::max(result.evidence.current_imbalance,
                 std::abs(at.current.sum()) / at.current.cwiseAbs().maxCoeff());
  }
  result.refinements = schedule.rounds();
  result.within_tolerance = schedule.within();
  result.mesh_seconds = model.mesh_seconds;
  result.solve_seconds = model.response_seconds;
  return result;
}

}  // namespace thinspot::solver
