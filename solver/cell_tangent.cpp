#include "solver/cell_tangent.hpp"

#include "solver/rescaling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using At = InputPlaces;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Two limits nearer to each other than this share hold at once: a working
/// point is found to 1e-10.
constexpr double kAtOnce = 1e-8;

bool meets(double a, double b) {
  return std::abs(a - b) <= kAtOnce * std::max(std::abs(a), std::abs(b));
}

class Maker {
 public:
  Maker(const Model& model, const Case& c, const WorkingPoint& w)
      : model_(model),
        case_(c),
        w_(w),
        places_(places_of(c, model.response.electrodes())),
        electrodes_(static_cast<Index>(w.laws.size())) {
    for (std::size_t r = 0; r < std::max<std::size_t>(1, w.rectifiers.size());
         ++r)
      rails_.push_back(rail(r));
    const auto& each = model.response.electrodes().each;
    for (std::size_t e = 0; e < w.laws.size(); ++e)
      if (!w.laws[e].floating && !w.laws[e].tangent &&
          rescales(polarization_of(c, each[e].solid)))
        t_.following.push_back(e);
    for (std::size_t e = 0; e < w.laws.size(); ++e) {
      const ElectrodeLaw& law = w.laws[e];
      if (law.anode || law.floating) continue;
      cathodes_ += w.current(static_cast<Index>(e));
      if (law.part) part_ += w.current(static_cast<Index>(e));
    }
    wires_ = kWireShare * model.scale.wire_area / model.scale.part_area;
    if (cathodes_ > 0) more_ += wires_ * part_ / cathodes_;
  }

  CellTangent make() {
    const Index unknowns = electrodes_ + static_cast<Index>(rails_.size()) + 1 +
                           static_cast<Index>(t_.following.size());
    t_.by_unknowns = MatrixXd::Zero(unknowns, unknowns);
    t_.by_currents = MatrixXd::Zero(unknowns, electrodes_);
    t_.by_inputs = MatrixXd::Zero(unknowns, places_.count());
    for (Index e = 0; e < electrodes_; ++e) add_electrode(e);
    for (std::size_t r = 0; r < rails_.size(); ++r) add_rail(r);
    add_wires();
    for (std::size_t k = 0; k < t_.following.size(); ++k) add_following(k);
    add_voltage(unknowns);
    find_bends();
    return std::move(t_);
  }

 private:
  struct Rail {
    std::string keeps_to;  ///< as limited_by
    double terminals = 0;  ///< [V]
    double current = 0;    ///< that it gives, wires included [A]
    double given = 0;      ///< of that, to the section [A]
    double voltage = 0;    ///< of its rail [V]
    bool gives = true;
  };

  Rail rail(std::size_t r) const {
    Rail rail;
    for (std::size_t e = 0; e < w_.laws.size(); ++e)
      if (w_.laws[e].anode && w_.laws[e].rectifier == r)
        rail.given -= w_.current(static_cast<Index>(e));
    if (w_.rectifiers.empty()) {
      rail.keeps_to = w_.limited_by;
      rail.terminals = w_.terminal_voltage;
      rail.current = w_.total_current;
    } else {
      const AtRectifier& at = w_.rectifiers[r];
      rail.keeps_to = at.limited_by;
      rail.terminals = at.voltage;
      rail.current = at.current;
      rail.gives = at.limited_by != "blocked" && at.limited_by != "idle";
    }
    const double lead = supply_of(case_, r).lead_resistance.value;
    rail.voltage = rail.terminals - lead * rail.current;
    return rail;
  }

  Index rail_at(std::size_t r) const {
    return electrodes_ + static_cast<Index>(r);
  }
  Index wires_at() const {
    return electrodes_ + static_cast<Index>(rails_.size());
  }
  const ElectrodeLaw& law(Index e) const {
    return w_.laws[static_cast<std::size_t>(e)];
  }

  /// drive - shift - series * current = its rail; floating: current = 0, in
  /// volts.
  void add_electrode(Index e) {
    const auto n = static_cast<std::size_t>(e);
    if (law(e).floating) {
      t_.by_currents(e, e) =
          1 / (w_.answers.current(e, e) * model_.scale.depth);
      return;
    }
    t_.by_unknowns(e, e) = 1;
    if (law(e).anode) t_.by_unknowns(e, rail_at(law(e).rectifier)) = -1;
    t_.by_currents(e, e) = -law(e).series;
    t_.by_inputs(e, places_.at(At::moved, n)) = -1;
    t_.by_inputs(e, places_.at(At::series, n)) = -w_.current(e);
  }

  /// Adds `by` times what a rail gives to the section.
  template <class Row>
  void add_given(Row row, std::size_t r, double by) const {
    for (Index e = 0; e < electrodes_; ++e)
      if (law(e).anode && law(e).rectifier == r) row(e) -= by;
  }

  void add_rail(std::size_t r) {
    const Rail& rail = rails_[r];
    const Supply& s = supply_of(case_, r);
    const Index k = rail_at(r);
    const Index setting = places_.at(At::setting, r);
    const double lead = s.lead_resistance.value;
    if (rail.keeps_to == "idle") {
      t_.by_unknowns(k, k) = 1;
    } else if (rail.keeps_to == "blocked") {
      add_given(t_.by_currents.row(k), r, 1);
    } else if (rail.keeps_to == "voltage" || rail.keeps_to == "voltage limit") {
      t_.by_unknowns(k, k) = 1;
      t_.by_unknowns(k, wires_at()) = lead * rail.given;
      add_given(t_.by_currents.row(k), r, lead * more_);
      t_.by_inputs(k, places_.at(At::lead, r)) = more_ * rail.given;
      if (rail.keeps_to == "voltage") t_.by_inputs(k, setting) = -1;
    } else if (rail.keeps_to == "current") {
      t_.by_unknowns(k, wires_at()) = rail.given;
      add_given(t_.by_currents.row(k), r, more_);
      t_.by_inputs(k, setting) = -1;
    } else {
      for (Index e = 0; e < electrodes_; ++e)
        if (law(e).part) t_.by_currents(k, e) = 1;
      t_.by_inputs(k, setting) = -model_.scale.part_area;
    }
  }

  /// more = 1 + wires * part / cathodes
  void add_wires() {
    const Index k = wires_at();
    t_.by_unknowns(k, k) = 1;
    if (!(cathodes_ > 0)) return;
    for (Index e = 0; e < electrodes_; ++e) {
      if (law(e).anode || law(e).floating) continue;
      t_.by_currents(k, e) = wires_ * part_ / (cathodes_ * cathodes_);
      if (law(e).part) t_.by_currents(k, e) -= wires_ / cathodes_;
    }
  }

  /// ln R = ln(R_at at / mean + bag)
  void add_following(std::size_t k) {
    const std::size_t e = t_.following[k];
    const Electrode& electrode = model_.response.electrodes().each[e];
    const Polarization& p = polarization_of(case_, electrode.solid);
    const double mean =
        mean_density(w_, model_.response, e, model_.scale.depth);
    const double rest = kRest * *p.at;
    const double resistance = w_.laws[e].resistance;
    const double factor = *p.at / std::max(mean, rest);
    const Index row = t_.place_of(k);
    t_.by_unknowns(row, row) = 1;
    t_.by_inputs(row, places_.at(At::resistance, e)) = -factor / resistance;
    t_.by_inputs(row, places_.at(At::bag, e)) = -1 / resistance;
    if (mean > rest)
      t_.by_currents(row, static_cast<Index>(e)) =
          p.resistance.value * factor / resistance /
          w_.current(static_cast<Index>(e));
    if (meets(mean, rest)) t_.bend = "an electrode is just at rest";
  }

  void add_voltage(Index unknowns) {
    t_.voltage_by_unknowns = VectorXd::Zero(unknowns);
    t_.voltage_by_currents = VectorXd::Zero(electrodes_);
    t_.voltage_by_inputs = VectorXd::Zero(places_.count());
    const std::size_t r = w_.rectifiers.empty() ? 0 : w_.leading;
    const Rail& rail = rails_[r];
    t_.voltage_by_unknowns(rail_at(r)) = 1;
    if (!rail.gives) return;
    const double lead = supply_of(case_, r).lead_resistance.value;
    t_.voltage_by_unknowns(wires_at()) = lead * rail.given;
    for (Index e = 0; e < electrodes_; ++e)
      if (law(e).anode && law(e).rectifier == r)
        t_.voltage_by_currents(e) = -lead * more_;
    t_.voltage_by_inputs(places_.at(At::lead, r)) = more_ * rail.given;
  }

  /// Where what a supply keeps to is about to change.
  void find_bends() {
    double most = 0;
    for (const Rail& rail : rails_) most = std::max(most, std::abs(rail.given));
    for (std::size_t r = 0; r < rails_.size(); ++r) {
      const Rail& rail = rails_[r];
      const Supply& s = supply_of(case_, r);
      const auto ceiling =
          s.voltage ? std::optional(s.voltage->value) : s.voltage_limit;
      bool bend = false;
      if (rail.keeps_to == "blocked")
        bend = ceiling && rail.voltage <= (1 + kAtOnce) * *ceiling;
      else if (rail.keeps_to == "voltage limit")
        bend = s.current ? meets(rail.current, s.current->value)
                         : meets(part_, s.current_density->value *
                                            model_.scale.part_area);
      else if (rail.keeps_to.starts_with("current"))
        bend = s.voltage_limit && meets(rail.terminals, *s.voltage_limit);
      const bool none = rail.gives && rails_.size() > 1 &&
                        std::abs(rail.given) <= kAtOnce * most;
      if (bend || none)
        t_.bend = rails_.size() > 1 ? fmt::format(
                                          "rectifier {} is just at the edge of "
                                          "another of its limits",
                                          case_.rectifiers[r].name)
                                    : "the supply is just at both its limits";
    }
  }

  const Model& model_;
  const Case& case_;
  const WorkingPoint& w_;
  InputPlaces places_;
  Index electrodes_;
  std::vector<Rail> rails_;
  double cathodes_ = 0, part_ = 0, wires_ = 0, more_ = 1;
  CellTangent t_;
};

}  // namespace

CellTangent cell_tangent(const Model& model, const Case& alone,
                         const WorkingPoint& w) {
  return Maker(model, alone, w).make();
}

}  // namespace thinspot::solver
