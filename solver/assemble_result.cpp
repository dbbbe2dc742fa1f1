#include "solver/assemble_result.hpp"

#include "solver/accuracy_notes.hpp"
#include "solver/cautions.hpp"
#include "solver/electrode_results.hpp"
#include "solver/part_result.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;

CellResult describe_cell(const Certified& solved, const Bands& bands) {
  const WorkingPoint& w = solved.outcome.point;
  CellResult cell;
  cell.current = w.total_current;
  cell.voltage = w.terminal_voltage;
  cell.voltage_band = bands.voltage;
  cell.current_band = bands.current;
  cell.limited_by = w.limited_by;
  cell.resistance = w.terminal_voltage / w.total_current;
  cell.voltage_mesh_error = solved.errors.voltage;
  cell.resistance_mesh_error = solved.errors.resistance;
  return cell;
}

StepResult describe_step(const Case& c, const CellResult& cell,
                         const Outcome& outcome, const SectionScale& scale) {
  StepResult step;
  step.duration = total_duration(c);
  step.cell = cell;
  for (const PartOutcome& p : outcome.parts) {
    step.part_current += p.current;
    step.max_current_density =
        std::max(step.max_current_density, p.current_density_spread.max);
  }
  step.mean_current_density = step.part_current / scale.part_area;
  step.burning = c.target.burning_current_density &&
                 step.max_current_density > *c.target.burning_current_density;
  return step;
}

std::optional<TargetResult> judge(const Case& c, const Outcome& outcome) {
  if (!c.target.thickness) return std::nullopt;
  TargetResult t;
  t.wanted = *c.target.thickness;
  t.least = outcome.parts.front().least_judged;
  for (const PartOutcome& p : outcome.parts)
    t.least = std::min(t.least, p.least_judged);
  t.met = t.least >= t.wanted;
  t.shortfall = t.met ? 0 : t.wanted - t.least;
  if (t.least > 0) t.time_needed = total_duration(c) * t.wanted / t.least;
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
               const MeshErrors::OfPart& e, double growth) {
  part.current_density.mesh_error = {e.least, e.mean, e.largest};
  part.thickness.mesh_error = {growth * e.least, growth * e.mean,
                               growth * e.largest};

  part.thickness.min_band = b.least;
  part.thickness.mean_band = b.mean;
  part.thickness.max_band = b.largest;
  part.current_density.min_band = b.least_density;
  part.current_density.mean_band = b.mean_density;
  part.current_density.max_band = b.largest_density;
}

}  // namespace

Result assemble_result(const Certified& solved, const Case& c,
                       const Bands& bands) {
  const Model& model = solved.model;
  const Outcome& outcome = solved.outcome;
  const WorkingPoint& w = outcome.point;
  const double growth = growth_per_density(c);
  Result result;
  result.used = c;
  result.section = model.section;
  result.mesh = model.mesh;
  result.depth =
      model.section.cut == mesh::Cut::axisymmetric ? 0 : model.scale.depth;
  result.potential = model.response.everywhere(w.answers.potential * w.drive);
  result.current_density = -c.solution.conductivity.value *
                           nodal_gradient(model.mesh, result.potential);
  result.cell = describe_cell(solved, bands);
  for (std::size_t p = 0; p < outcome.parts.size(); ++p) {
    const Surface& surface = model.surfaces[p];
    result.parts.push_back(describe_part(model, c, surface, outcome.parts[p]));
    set_bands(result.parts.back(), bands.parts[p], solved.errors.parts[p],
              growth);
    follow_the_law(model, surface, outcome.parts[p], result.current_density);
  }
  for (std::size_t k = 0; k < outcome.probes.size(); ++k) {
    const ProbeOutcome& p = outcome.probes[k];
    const double error = solved.errors.probes[k];
    result.probes.push_back({c.probes[k].name, p.at, p.face, p.window.value,
                             p.thickness, error, growth * error});
  }
  result.steps = {describe_step(c, result.cell, outcome, model.scale)};
  result.anodes = describe_anodes(model, c, outcome);
  result.clips = describe_cathodes(model, outcome, mesh::Role::clip);
  result.thieves = describe_cathodes(model, outcome, mesh::Role::thief);
  result.floating = describe_floating(model, outcome);
  result.wires = describe_wires(c, outcome, model.scale);
  if (c.rack) result.rack = describe_rack(result.parts);
  const Wagner wagner = wagner_of(model, c, w, model.surfaces.front());
  result.wagner_number = wagner.number;
  result.wagner_length = wagner.length;
  result.target = judge(c, outcome);
  if (result.target) {
    const auto least =
        std::min_element(bands.parts.begin(), bands.parts.end(),
                         [](const Bands::OfPart& a, const Bands::OfPart& b) {
                           return a.least_judged.low < b.least_judged.low;
                         });
    result.target->least_band = least->least_judged;
    for (const MeshErrors::OfPart& e : solved.errors.parts)
      result.target->least_mesh_error =
          std::max(result.target->least_mesh_error, growth * e.least_judged);
  }
  result.cautions = cautions_for(c);
  result.notes = c.notes;
  for (const std::string& note : model_notes(c, result.wagner_number))
    result.notes.push_back(note);
  for (const std::string& note : accuracy_notes(solved, c))
    result.notes.push_back(note);
  result.notes.insert(result.notes.end(), model.mesh.notes.begin(),
                      model.mesh.notes.end());
  result.evidence.relative_residual = w.answers.relative_residual;
  result.evidence.current_imbalance =
      std::abs(w.current.sum()) / w.current.cwiseAbs().maxCoeff();
  result.refinements = solved.rounds;
  result.within_tolerance = solved.within;
  result.mesh_seconds = model.mesh_seconds;
  result.solve_seconds = model.response_seconds;
  return result;
}

}  // namespace thinspot::solver
