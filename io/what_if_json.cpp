#include "io/what_if_json.hpp"

#include "io/base64.hpp"
#include "io/keyed_quantity.hpp"
#include "solver/deposit.hpp"
#include "solver/laws.hpp"
#include "solver/polarization.hpp"
#include "solver/what_if.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Case;
using solver::Result;
using solver::WhatIf;

Json or_null(const std::optional<solver::Quantity>& q) {
  return q ? Json(q->value) : Json(nullptr);
}

Json or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json supply(const solver::Supply& s) {
  return {{"current", or_null(s.current)},
          {"current_density", or_null(s.current_density)},
          {"voltage", or_null(s.voltage)},
          {"voltage_limit", or_null(s.voltage_limit)},
          {"adapter", s.adapter.has_value()},
          {"lead", s.lead_resistance.value}};
}

/// The law of one electrode in one step; keys as solver/polarization.hpp names
/// what is behind them.
Json law(const solver::WhatIfStep& step, std::size_t e, std::size_t solid) {
  const Case& c = step.used;
  const solver::ElectrodeLaw& l = step.laws[e];
  Json out = {{"anode", l.anode},
              {"floating", l.floating},
              {"rectifier", l.rectifier},
              {"shift", l.anode ? -l.open_circuit - l.offset : l.offset},
              {"series", l.series},
              {"resistance", step.resistance[e]}};
  if (l.floating) return out;
  const solver::Polarization& p = solver::polarization_of(c, solid);
  const solver::Anode* anode = solver::anode_of(c, solid);
  out["bag"] = anode ? anode->bag_resistance.value : 0;
  out["stated"] = p.resistance.value;
  out["at"] = or_null(p.at);
  const auto limit = solver::limit_for(p, c.solution, l.anode);
  if (!solver::LawCurve(p, c.solution, limit).curved()) return out;
  out["curve"] = {
      {"kind", solver::word_of(p.law)},
      {"resistance", p.resistance.value},
      {"exchange", p.exchange_current_density.value},
      {"slope", p.tafel_slope.value},
      {"reverse", p.reverse_tafel_slope.value},
      {"limit", or_null(limit)},
      {"concentration",
       solver::kGasConstant * c.solution.temperature /
           (std::max(c.solution.metal.electrons, 1) * solver::kFaraday)},
      {"over", step.over[e]}};
  return out;
}

Json geometry(const solver::WhatIfGeometry& g) {
  Json out = {
      {"size", g.stiffness.front().rows()}, {"held", g.held}, {"rows", g.rows}};
  for (const auto& s : g.stiffness)
    out["stiffness"].push_back(packed_symmetric(s));
  for (const auto& e : g.electrodes) {
    Json one = {{"part", e.part},
                {"measure", e.measure},
                {"mass", packed_symmetric(e.mass)},
                {"weight", packed(e.weight)}};
    if (e.gauss.rows() > 0) {
      one["gauss"] = packed(e.gauss);
      one["sizes"] = packed(e.size);
    }
    out["electrodes"].push_back(std::move(one));
  }
  for (const auto& p : g.parts) {
    Json one = {{"potential", packed(p.potential)},
                {"wetted", packed(p.wetted)}};
    for (const auto& density : p.held) one["held"].push_back(packed(density));
    out["parts"].push_back(std::move(one));
  }
  return out;
}

Json step(const WhatIf& what, const solver::WhatIfStep& s) {
  Json out = {{"geometry", s.geometry},
              {"duration", s.used.steps.front().duration.value},
              {"conductivity", s.used.solution.conductivity.value},
              {"efficiency", s.used.solution.efficiency.value},
              {"supply", supply(s.used.supply)}};
  for (const auto& r : s.used.rectifiers) {
    Json one = supply(r.supply);
    one["name"] = r.name;
    out["rectifiers"].push_back(std::move(one));
  }
  const auto& electrodes = what.geometries[s.geometry].electrodes;
  for (std::size_t e = 0; e < electrodes.size(); ++e)
    out["electrodes"].push_back(law(s, e, electrodes[e].solid));
  for (const auto& t : s.turns) out["turns"].push_back({t.turn, t.share});
  if (const auto& turning = s.used.steps.front().turning;
      turning && !s.angles.empty())
    out["turning"] = {{"positions", turning->positions},
                      {"dwell", turning->dwell},
                      {"rate", turning->rate},
                      {"angles", s.angles}};
  out["positions"] = s.positions;
  return out;
}

Json part(const solver::WhatIfPart& p) {
  Json out = {{"name", p.name},
              {"area", p.area},
              {"faces", p.faces},
              {"node_areas", packed(p.node_areas)}};
  const auto n = static_cast<Eigen::Index>(p.places.size());
  Eigen::MatrixXd at(n, 3);
  Json loops = Json::array(), faces = Json::array(), marks = Json::array(),
       nodes = Json::array(), counts = Json::array(), lengths = Json::array();
  std::vector<double> weights;
  for (Eigen::Index k = 0; k < n; ++k) {
    const solver::WhatIfPlace& place = p.places[static_cast<std::size_t>(k)];
    at.row(k) << place.at.x(), place.at.y(), place.window.arc;
    loops.push_back(place.loop);
    lengths.push_back(place.of_length);
    faces.push_back(place.face);
    marks.push_back((place.open ? 1 : 0) + (place.judged ? 2 : 0));
    int count = 0;
    for (Eigen::Index j = 0; j < place.weights.size(); ++j) {
      if (place.weights(j) == 0) continue;
      nodes.push_back(j);
      weights.push_back(place.weights(j));
      ++count;
    }
    counts.push_back(count);
  }
  out["places"] = packed(at);
  out["loops"] = loops;
  out["lengths"] = lengths;
  out["face"] = faces;
  out["marks"] = marks;
  out["counts"] = counts;
  out["nodes"] = nodes;
  out["weights"] = packed(Eigen::Map<const Eigen::VectorXd>(
      weights.data(), static_cast<Eigen::Index>(weights.size())));
  return out;
}

Json keys(const std::vector<solver::WhatIfKey>& turned) {
  Json out = Json::array();
  for (const auto& [key, value] : turned)
    out.push_back({key, keyed_number(key, value), keyed_unit(key)});
  return out;
}

Json range(const solver::WhatIfRange& r) { return {r.low, r.high}; }

Json model(const WhatIf& what, const Result& result) {
  const Case& c = result.used;
  Json out = {
      {"depth", what.scale.depth},
      {"part_area", what.scale.part_area},
      {"wires",
       solver::kWireShare * what.scale.wire_area / what.scale.part_area},
      {"growth_per_charge", solver::growth_per_charge(c.solution.metal)},
      {"metal", c.solution.metal.name},
      {"by_density", what.by_density},
      {"wanted", or_null(c.target.thickness)},
      {"burning", or_null(c.target.burning_current_density)},
      {"least_resolved", solver::kLeastResolved},
      {"ranges",
       {{"current", range(solver::kCurrentRange)},
        {"conductivity", range(solver::kConductivityRange)},
        {"polarization", range(solver::kPolarizationRange)}}},
      {"keys",
       {{"current", keys(what.current)},
        {"conductivity", keys(what.conductivity)},
        {"polarization", keys(what.polarization)}}}};
  Json table = Json::array();
  for (const auto& at : c.solution.efficiency_table)
    table.push_back({at.density, at.efficiency});
  out["efficiency_table"] = std::move(table);
  for (const auto& g : what.geometries)
    out["geometries"].push_back(geometry(g));
  for (const auto& s : what.steps) out["steps"].push_back(step(what, s));
  for (const auto& p : what.parts) out["parts"].push_back(part(p));
  return out;
}

/// @param file  of the layer, on the command line; 0: there is but one
Json answer(const Result& result, const std::string& name, std::size_t file) {
  Json out = {{"layer", name}, {"file", file}};
  if (!result.what_if) return out;
  if (!result.what_if->model)
    out["why_not"] = result.what_if->why_not;
  else
    out.update(model(*result.what_if->model, result));
  return out;
}

}  // namespace

std::string what_if_json(const Result& result) {
  Json all = Json::array();
  for (std::size_t l = 0; l < result.layers.size(); ++l)
    if (const solver::LayerResult& layer = result.layers[l]; layer.own.what_if)
      all.push_back(answer(layer.own, layer.name, l + 1));
  if (result.what_if) all.push_back(answer(result, "", 0));
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
