#include "io/summary_json.hpp"

#include "io/appraisal_json.hpp"
#include "io/caution_sources_json.hpp"
#include "io/forecast_json.hpp"
#include "io/meter_json.hpp"
#include "io/number_text.hpp"
#include "io/preparation_json.hpp"
#include "io/program.hpp"
#include "io/solution_json.hpp"
#include "io/target_json.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"
#include "solver/face_letters.hpp"
#include "solver/step_view.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Interval;
using solver::PartResult;
using solver::Result;
using Convert = double (*)(double);

double as_is(double value) { return value; }

Json band(const Interval& interval, Convert unit) {
  return Json::array({unit(interval.low), unit(interval.high)});
}

Json spread(const solver::Spread& s, Convert unit) {
  return {{"min", unit(s.min)}, {"mean", unit(s.mean)}, {"max", unit(s.max)}};
}

Json banded_spread(const solver::BandedSpread& s, Convert unit) {
  Json out = spread(s.value, unit);
  out["min_band"] = band(s.min_band, unit);
  out["mean_band"] = band(s.mean_band, unit);
  out["max_band"] = band(s.max_band, unit);
  out["min_mesh_error"] = unit(s.mesh_error.min);
  out["mean_mesh_error"] = unit(s.mesh_error.mean);
  out["max_mesh_error"] = unit(s.mesh_error.max);
  return out;
}

/// A millionth of a millimetre is beyond any drawing: what lies below is noise
/// of the arithmetic, and would show as 3.1e-16.
double to_drawn_mm(double metres) {
  return std::round(to_mm(metres) * 1e6) * 1e-6;
}

Json assumed(const solver::Case& c) {
  Json out = Json::array();
  for (const solver::Assumption& a : c.assumed)
    out.push_back({{"key", a.key}, {"value", a.value}, {"why", a.why}});
  return out;
}

Json cell(const solver::CellResult& c) {
  return {{"current_A", c.current},
          {"current_A_band", band(c.current_band, as_is)},
          {"voltage_V", c.voltage},
          {"voltage_V_band", band(c.voltage_band, as_is)},
          {"voltage_V_mesh_error", c.voltage_mesh_error},
          {"limited_by", c.limited_by},
          {"resistance_ohm", c.resistance},
          {"resistance_ohm_mesh_error", c.resistance_mesh_error}};
}

Json rectifiers(const solver::CellResult& c) {
  Json out = Json::array();
  for (const solver::RectifierResult& r : c.rectifiers)
    out.push_back({{"name", r.name},
                   {"current_A", r.current},
                   {"current_A_band", band(r.current_band, as_is)},
                   {"current_A_mesh_error", r.current_mesh_error},
                   {"voltage_V", r.voltage},
                   {"voltage_V_band", band(r.voltage_band, as_is)},
                   {"voltage_V_mesh_error", r.voltage_mesh_error},
                   {"limited_by", r.limited_by}});
  return out;
}

Json faces(const PartResult& part) {
  Json out = Json::array();
  for (const solver::FaceResult& f : part.faces)
    out.push_back(
        {{"name", f.name},
         {"letter", solver::face_letter(out.size())},
         {"judged", f.judged},
         {"area_cm2", to_cm2(f.area)},
         {"current_A", f.current},
         {"current_density_A_dm2", spread(f.current_density, to_a_dm2)},
         {"thickness_um", spread(f.thickness, to_um)}});
  return out;
}

Json spots(const std::vector<solver::Spot>& list) {
  Json out = Json::array();
  for (const solver::Spot& s : list)
    out.push_back({{"x_mm", to_drawn_mm(s.at.x())},
                   {"y_mm", to_drawn_mm(s.at.y())},
                   {"arc_mm", to_drawn_mm(s.arc)},
                   {"face", s.face},
                   {"where", s.where},
                   {"thickness_um", to_um(s.thickness)}});
  return out;
}

Json part(const PartResult& p) {
  Json bare = Json::array();
  for (const solver::Bare& b : p.bare)
    bare.push_back({{"face", b.face},
                    {"from_mm", to_drawn_mm(b.from)},
                    {"to_mm", to_drawn_mm(b.to)},
                    {"length_mm", to_drawn_mm(b.to - b.from)},
                    {"why", b.why}});
  Json out = {
      {"name", p.name},
      {"area_cm2", to_cm2(p.area)},
      {"current_A", p.current},
      {"mass_g", to_grams(p.mass)},
      {"current_density_A_dm2", banded_spread(p.current_density, to_a_dm2)},
      {"thickness_um", banded_spread(p.thickness, to_um)},
      {"faces", faces(p)},
      {"thin_spots", spots(p.thin_spots)},
      {"heavy_spots", spots(p.heavy_spots)},
      {"bare", std::move(bare)}};
  if (p.share_in_working_range)
    out["share_in_working_range"] = *p.share_in_working_range;
  return out;
}

Json probes(const Result& result) {
  Json out = Json::array();
  for (const solver::ProbeResult& p : result.probes)
    out.push_back({{"name", p.name},
                   {"x_mm", to_drawn_mm(p.at.x())},
                   {"y_mm", to_drawn_mm(p.at.y())},
                   {"face", p.face},
                   {"current_density_A_dm2", to_a_dm2(p.current_density)},
                   {"current_density_A_dm2_mesh_error",
                    to_a_dm2(p.current_density_mesh_error)},
                   {"thickness_um", to_um(p.thickness)},
                   {"thickness_um_mesh_error", to_um(p.thickness_mesh_error)}});
  return out;
}

Json steps(const Result& result) {
  Json out = Json::array();
  for (const solver::StepResult& s : result.steps) {
    const Interval grown = solver::thickness_after(s);
    out.push_back(
        {{"duration_min", to_minutes(s.duration)},
         {"what", solver::step_in_words(s)},
         {"flip", s.motion.flip},
         {"turn_deg", to_degrees(s.motion.turn)},
         {"angles", s.angles},
         {"off", s.off},
         {"lifted", s.lifted},
         {"cell", cell(s.cell)},
         {"rectifiers", rectifiers(s.cell)},
         {"part_current_A", s.part_current},
         {"mean_current_density_A_dm2", to_a_dm2(s.mean_current_density)},
         {"max_current_density_A_dm2", to_a_dm2(s.max_current_density)},
         {"burning", s.burning},
         {"thickness_um",
          {{"min", to_um(grown.low)}, {"max", to_um(grown.high)}}}});
    if (!s.metal.empty()) out.back()["layer"] = s.layer + 1;
    if (!s.temperature) continue;
    out.back()["temperature_degC"] = to_deg_c(*s.temperature);
    out.back()["conductivity_S_m"] = *s.conductivity;
  }
  return out;
}

Json wires(const Result& result) {
  Json out = Json::array();
  for (const solver::WireResult& w : result.wires)
    out.push_back({{"name", w.name},
                   {"area_cm2", to_cm2(w.area)},
                   {"current_A", w.current}});
  return out;
}

/// Clips or thieves.
Json cathodes(const std::vector<solver::CathodeResult>& list,
              const Result& result) {
  Json out = Json::array();
  for (const solver::CathodeResult& c : list)
    out.push_back({{"name", c.name},
                   {"current_A", c.current},
                   {"share_of_current", c.current / result.cell.current},
                   {"area_cm2", to_cm2(c.area)},
                   {"mean_A_dm2", to_a_dm2(c.mean)},
                   {"max_A_dm2", to_a_dm2(c.max)}});
  return out;
}

Json rack(const Result& result) {
  const solver::RackResult& r = *result.rack;
  return {
      {"copies", r.copies},
      {"mean_thickness_um", spread(r.mean_thickness, to_um)},
      {"thickness_um", {{"min", to_um(r.least)}, {"max", to_um(r.largest)}}},
      {"thinnest", result.parts.at(r.thinnest).name},
      {"heaviest", result.parts.at(r.heaviest).name}};
}

Json growth(const solver::GrowthResult& g) {
  Json unmoved = Json::array();
  for (const auto& s : g.unmoved) unmoved.push_back(spread(s, to_um));
  return {{"substeps", g.substeps},
          {"substep_error_um", to_um(g.substep_error)},
          {"area_drawn_cm2", to_cm2(g.area_drawn)},
          {"area_grown_cm2", to_cm2(g.area_grown)},
          {"unmoved_thickness_um", std::move(unmoved)}};
}

Json words_of(const Words& w) {
  Json out = {{"verdict", w.verdict},   {"todo", w.todo},
              {"thin", w.thin},         {"heavy", w.heavy},
              {"sure", w.sure},         {"measure", w.measure},
              {"along", w.along},       {"copies", w.copies},
              {"shares", w.shares},     {"bare", w.bare},
              {"floating", w.floating}, {"meter", w.meter},
              {"wagner", w.wagner},     {"throwing", w.throwing},
              {"why", w.why},           {"burn", w.burn},
              {"anodes", w.anodes},     {"edges", w.edges},
              {"gas", w.gas},           {"range", w.range},
              {"solution", w.solution}};
  if (!w.layers.empty()) out["layers"] = w.layers;
  return out;
}

/// One layer by itself: what is of its own tank, and what it leaves.
Json layer(const Result& own, const std::string& name) {
  Json out = {
      {"name", name},
      {"title", own.used.title},
      {"file", std::filesystem::path(own.used.file).filename().string()},
      {"solution", own.used.solution.name},
      {"metal", own.used.solution.metal.name},
      {"onto", own.used.part_metal},
      {"duration_min", to_minutes(total_duration(own.used))},
      {"steps", own.steps.size()},
      {"cell", cell(own.cell)},
      {"parts", Json::array()},
      {"probes", probes(own)},
      {"anodes", Json::parse(anodes_json(own))},
      {"wagner_number", own.wagner_number}};
  out.update(Json::parse(meter_json(own)));
  for (const PartResult& p : own.parts) {
    Json& brief = out["parts"].emplace_back(part(p));
    for (const char* key : {"faces", "thin_spots", "heavy_spots", "bare"})
      brief.erase(key);
  }
  if (own.target)
    out["target"] = Json::parse(target_json(*own.target, own.used.target));
  out["forecast"] = Json::parse(forecast_json(own.forecast));
  return out;
}

Json layers(const Result& r) {
  if (r.layers.empty())
    return Json::array({layer(r, r.used.solution.metal.name)});
  Json out = Json::array();
  for (const auto& l : r.layers) {
    out.push_back(layer(l.own, l.name));
    out.back().update(Json::parse(appraisal_json(l.own)));
  }
  return out;
}

/// Everything but files and times, in user units, not yet rounded.
Json build(const Result& r, const Words& words) {
  const bool planar = r.section.cut != mesh::Cut::axisymmetric;
  Json out = {
      {"schema", 1},
      {"program", {{"name", program_name}, {"version", program_version()}}},
      {"title", r.used.title},
      {"section", planar ? "planar" : "axisymmetric"}};
  if (planar) {
    out["view"] = r.section.cut == mesh::Cut::plan ? "plan" : "side";
    out["depth_mm"] = to_mm(r.depth);
  }
  out["words"] = words_of(words);
  out["solution"] = Json::parse(solution_json(r.used.solution));
  out["assumed"] = assumed(r.used);
  out["cell"] = cell(r.cell);
  out["rectifiers"] = rectifiers(r.cell);
  out.update(Json::parse(meter_json(r)));
  out["part"] = part(r.parts.front());
  out["parts"] = Json::array();
  for (const PartResult& p : r.parts) out["parts"].push_back(part(p));
  if (r.rack) out["rack"] = rack(r);
  if (r.growth) out["growth"] = growth(*r.growth);
  out["layers"] = layers(r);
  out["probes"] = probes(r);
  out["steps"] = steps(r);
  out["anodes"] = Json::parse(anodes_json(r));
  out["thieves"] = cathodes(r.thieves, r);
  out["clips"] = cathodes(r.clips, r);
  out["floating"] = Json::parse(floating_json(r));
  out["wires"] = wires(r);
  out["wagner"] = {{"number", r.wagner_number},
                   {"length_mm", to_mm(r.wagner_length)}};
  if (r.target)
    out["target"] = Json::parse(target_json(*r.target, r.used.target));
  out["forecast"] = Json::parse(forecast_json(r.forecast));
  out.update(Json::parse(appraisal_json(r)));
  out["preparation"] = Json::parse(preparation_json(r));
  out["cautions"] = r.cautions;
  out["caution_sources"] = Json::parse(caution_sources_json(r));
  out["notes"] = r.notes;
  out["mesh"] = {{"dofs", r.potential.size()},
                 {"triangles", r.mesh.triangles.cols()},
                 {"refinements", r.refinements},
                 {"tolerance", r.used.accuracy.tolerance},
                 {"within_tolerance", r.within_tolerance}};
  out["checks"] = {{"relative_residual", r.evidence.relative_residual},
                   {"current_imbalance", r.evidence.current_imbalance}};
  return out;
}

/// Rounds every number in the tree, and lets none through that is not one.
void tidy(Json& node, const std::string& name) {
  if (node.is_number_float()) {
    const double value = node.get<double>();
    if (!std::isfinite(value))
      throw NoResultError(fmt::format(
          "the result is unusable: {} is not a finite number", name));
    node = six_digits(value);
  } else if (node.is_structured()) {
    for (auto& item : node.items())
      tidy(item.value(), name.empty() ? item.key() : name + "." + item.key());
  }
}

std::string text_of(Json summary) {
  tidy(summary, "");
  return summary.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string summary_json(const Result& result, const Words& words) {
  return text_of(build(result, words));
}

std::string summary_json(const Result& result, const Words& words,
                         const std::vector<WrittenFile>& files) {
  Json out = build(result, words);
  out["files"] = Json::array();
  for (const WrittenFile& f : files)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  out["time_s"] = {{"mesh", result.mesh_seconds},
                   {"solve", result.solve_seconds},
                   {"total", result.total_seconds}};
  return text_of(std::move(out));
}

}  // namespace thinspot::io
