#include "solver/step_dual.hpp"

#include "solver/cell_tangent.hpp"
#include "solver/curved_laws.hpp"
#include "solver/element.hpp"
#include "solver/polarization.hpp"
#include "solver/window.hpp"

#include <Eigen/LU>

#include <array>
#include <limits>
#include <utility>

namespace thinspot::solver {

namespace {

using At = InputPlaces;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A point is settled where curved laws are next to their tangents; their
/// slopes there are off by the root of that. One more round puts them right.
WorkingPoint settled(const Model& model, const Case& c, WorkingPoint w) {
  CurvedLaws curved(model.response, c, model.scale, &w);
  operate(w, c, model.scale);
  if (!curved.any()) return w;
  curved.follow(w);
  curved.put(w.laws);
  w.answers =
      model.response.answer(c.solution.conductivity.value, local_laws(w.laws));
  operate(w, c, model.scale);
  return w;
}

/// A change of the density that leaves the liquid along an electrode.
struct Change {
  VectorXd load;   ///< tested with the electrode's functions [A/m or A]
  VectorXd nodes;  ///< at its nodes [A/m2]
};

}  // namespace

class StepDual::Cell {
 public:
  Cell(const Model& model, const Case& c, const WorkingPoint& w)
      : model_(model),
        case_(c),
        w_(settled(model, c, w)),
        laws_(local_laws(w_.laws)),
        each_(model.response.electrodes().each),
        places_(places_of(c, model.response.electrodes())),
        m_(static_cast<Index>(each_.size())),
        tangent_(cell_tangent(model, c, w_)) {
    find_flux();
    find_system();
  }

  const std::string& bend() const { return tangent_.bend; }
  const WorkingPoint& point() const { return w_; }
  Index inputs() const { return places_.count(); }

  /// Loads and held traces of the duals of current densities.
  MatrixXd window_duals(const std::vector<StepFigure>& figures) const {
    const Index rows = w_.answers.potential.rows();
    const auto count = static_cast<Index>(figures.size());
    MatrixXd loads = MatrixXd::Zero(rows, count), held_at = loads;
    const MatrixXd shares =
        held_shares(model_.response.electrodes(), rows, laws_);
    bool any = false;
    for (Index k = 0; k < count; ++k) {
      const StepFigure& f = figures[static_cast<std::size_t>(k)];
      if (f.density.size() == 0) continue;
      any = true;
      const Electrode& e = each_[f.electrode];
      const VectorXd on =
          held(f.electrode) ? flux_trace(e, f.density) : by_slope(f);
      for (std::size_t n = 0; n < e.rows.size(); ++n)
        if (held(f.electrode))
          held_at(e.rows[n], k) =
              on(static_cast<Index>(n)) *
              shares(e.rows[n], static_cast<Index>(f.electrode));
        else
          loads(e.rows[n], k) = on(static_cast<Index>(n));
    }
    if (!any) return MatrixXd::Zero(rows, count);
    return model_.response
        .solve(case_.solution.conductivity.value, laws_, loads, held_at)
        .potential;
  }

  /// Derivative by the numbers of one figure.
  VectorXd by_inputs(const StepFigure& f, const VectorXd& window_dual) const {
    VectorXd on_currents = f.voltage * tangent_.voltage_by_currents;
    if (f.current.size() > 0) on_currents += f.current;
    const VectorXd by_unknowns = density_by_unknowns(f, window_dual) +
                                 f.voltage * tangent_.voltage_by_unknowns +
                                 by_unknowns_.transpose() * on_currents;
    const VectorXd equations = factor_.solve(by_unknowns);
    VectorXd by = f.voltage * tangent_.voltage_by_inputs -
                  tangent_.by_inputs.transpose() * equations;
    const VectorXd of_current =
        model_.scale.depth *
        (on_currents - tangent_.by_currents.transpose() * equations);
    const VectorXd dual =
        window_dual + w_.answers.potential.leftCols(m_) * of_current;
    by(At::conductivity) -= dual.dot(stiff_);
    for (std::size_t e = 0; e < each_.size(); ++e) {
      const auto add = [&](At::OfElectrode number, const Change& change) {
        double sum = of_current(static_cast<Index>(e)) * change.load.sum() -
                     rows_of(e, dual).dot(change.load);
        if (f.density.size() > 0 && e == f.electrode)
          sum += f.density.dot(change.nodes);
        by(places_.at(number, e)) += sum;
      };
      add_law(e, by, add);
    }
    return by;
  }

 private:
  bool held(std::size_t e) const { return w_.laws[e].resistance == 0; }

  VectorXd rows_of(std::size_t e, const VectorXd& boundary) const {
    return boundary(each_[e].rows);
  }

  /// What leaves through each law, and what the stiffness at conductivity 1
  /// makes of the potential: by the field equation the same, but for what
  /// reacts where the potential is held.
  void find_flux() {
    const VectorXd potential = w_.answers.potential * w_.drive;
    stiff_ = VectorXd::Zero(potential.size());
    for (std::size_t e = 0; e < each_.size(); ++e) {
      Change flux;
      if (!held(e)) {
        const Electrode& electrode = each_[e];
        const VectorXd over =
            (rows_of(e, potential).array() - w_.drive(static_cast<Index>(e)))
                .matrix();
        const Tangent* tangent = w_.laws[e].tangent.get();
        flux.load =
            tangent ? VectorXd(tangent->mass * over + tangent->rest)
                    : VectorXd(electrode.mass * over / w_.laws[e].resistance);
        flux.nodes = current_density(model_.response, w_, e);
        for (std::size_t k = 0; k < electrode.rows.size(); ++k)
          stiff_(electrode.rows[k]) -= flux.load(static_cast<Index>(k)) /
                                       case_.solution.conductivity.value;
      }
      flux_.push_back(std::move(flux));
    }
    const VectorXd reaction = w_.answers.reaction * w_.drive;
    for (const Index row :
         find_fixed(model_.response.electrodes(), laws_).fixed)
      stiff_(row) = reaction(row);
  }

  /// Currents by a change of one law, drives held [A].
  VectorXd currents_by(std::size_t e, const VectorXd& load) const {
    const MatrixXd answers = w_.answers.potential(each_[e].rows, Eigen::all);
    VectorXd change = -answers.leftCols(m_).transpose() * load;
    change(static_cast<Index>(e)) += load.sum();
    return change * model_.scale.depth;
  }

  void find_system() {
    by_unknowns_ = MatrixXd::Zero(m_, tangent_.by_unknowns.cols());
    by_unknowns_.leftCols(m_) =
        w_.answers.current.leftCols(m_) * model_.scale.depth;
    for (std::size_t k = 0; k < tangent_.following.size(); ++k) {
      const std::size_t e = tangent_.following[k];
      by_unknowns_.col(tangent_.place_of(k)) = currents_by(e, -flux_[e].load);
    }
    factor_.compute((tangent_.by_unknowns + tangent_.by_currents * by_unknowns_)
                        .transpose());
  }

  VectorXd by_slope(const StepFigure& f) const {
    const ElectrodeLaw& law = w_.laws[f.electrode];
    if (law.tangent) return f.density.cwiseProduct(law.tangent->node_slope);
    return f.density / law.resistance;
  }

  /// How the densities' sum goes by drives and following resistances alone.
  VectorXd density_by_unknowns(const StepFigure& f,
                               const VectorXd& dual) const {
    VectorXd by = VectorXd::Zero(tangent_.by_unknowns.cols());
    if (f.density.size() == 0) return by;
    const Electrode& electrode = each_[f.electrode];
    if (held(f.electrode)) {
      by.head(m_) = w_.answers.leaving[f.electrode].leftCols(m_).transpose() *
                    flux_trace(electrode, f.density);
    } else {
      const VectorXd on = by_slope(f);
      const MatrixXd answers = w_.answers.potential(electrode.rows, Eigen::all);
      by.head(m_) = answers.leftCols(m_).transpose() * on;
      by(static_cast<Index>(f.electrode)) -= on.sum();
    }
    for (std::size_t k = 0; k < tangent_.following.size(); ++k) {
      const std::size_t e = tangent_.following[k];
      double& place = by(tangent_.place_of(k));
      place = rows_of(e, dual).dot(flux_[e].load);
      if (e == f.electrode) place -= f.density.dot(flux_[e].nodes);
    }
    return by;
  }

  template <class Add>
  void add_law(std::size_t e, VectorXd& by, Add add) const {
    const ElectrodeLaw& law = w_.laws[e];
    if (held(e)) {
      for (const auto number : {At::resistance, At::bag})
        by(places_.at(number, e)) = std::numeric_limits<double>::quiet_NaN();
      return;
    }
    if (law.tangent) {
      for (const auto& [number, change] : changes_of_curve(e))
        add(number, change);
      return;
    }
    for (const std::size_t following : tangent_.following)
      if (following == e) return;  // by its own equation
    const Change change{-flux_[e].load / law.resistance,
                        -flux_[e].nodes / law.resistance};
    add(At::resistance, change);
    add(At::bag, change);
  }

  /// What each number of a curved law changes, at the overpotentials where it
  /// works. A bag in series takes its part of every change.
  std::vector<std::pair<At::OfElectrode, Change>> changes_of_curve(
      std::size_t e) const {
    constexpr std::array numbers{At::resistance, At::exchange, At::slope,
                                 At::reverse,    At::limit,    At::bag};
    const Electrode& electrode = each_[e];
    const Tangent& tangent = *w_.laws[e].tangent;
    const bool is_anode = w_.laws[e].anode;
    const Polarization& p = polarization_of(case_, electrode.solid);
    const LawCurve curve(p, case_.solution,
                         limit_for(p, case_.solution, is_anode));
    const Anode* anode = anode_of(case_, electrode.solid);
    const double series = anode ? anode->bag_resistance.value : 0;
    const auto all_at = [&](double over) {
      const LawCurve::ByNumbers by = curve.by_numbers(over);
      const LawCurve::Point at = curve.at(over);
      const double less = (is_anode ? -1 : 1) / (1 + series * at.slope);
      return std::array{less * by.resistance, less * by.exchange,
                        less * by.slope,      less * by.reverse,
                        less * by.limit,      -less * at.slope * at.density};
    };
    const auto n = static_cast<Index>(electrode.rows.size());
    std::vector<std::pair<At::OfElectrode, Change>> changes;
    for (const At::OfElectrode number : numbers)
      changes.push_back({number, {VectorXd::Zero(n), VectorXd::Zero(n)}});
    for (std::size_t k = 0; k < electrode.edges.size(); ++k)
      for (std::size_t q = 0; q < 4; ++q) {
        const ElectrodeEdge& edge = electrode.edges[k];
        const auto by = all_at(tangent.over.gauss[k][q]);
        const Eigen::Vector3d shape = edge_functions(gauss_rule()[q].t);
        for (std::size_t c = 0; c < by.size(); ++c)
          for (std::size_t j = 0; j < 3; ++j)
            changes[c].second.load(edge.place[j]) +=
                edge.size[q] * by[c] * shape(static_cast<Index>(j));
      }
    for (Index k = 0; k < n; ++k) {
      const auto by = all_at(tangent.over.nodes(k));
      for (std::size_t c = 0; c < by.size(); ++c)
        changes[c].second.nodes(k) = by[c];
    }
    return changes;
  }

  const Model& model_;
  const Case& case_;
  WorkingPoint w_;
  LocalLaws laws_;
  const std::vector<Electrode>& each_;
  InputPlaces places_;
  Index m_;  // electrodes
  CellTangent tangent_;
  std::vector<Change> flux_;  // of each electrode that has a law
  VectorXd stiff_;
  MatrixXd by_unknowns_;                  // of currents [A]
  Eigen::PartialPivLU<MatrixXd> factor_;  // of the small system, transposed
};

StepDual::StepDual(const Model& model, const Case& alone,
                   const WorkingPoint& point)
    : cell_(std::make_unique<const Cell>(model, alone, point)) {}

StepDual::~StepDual() = default;

const std::string& StepDual::bend() const { return cell_->bend(); }

const WorkingPoint& StepDual::point() const { return cell_->point(); }

MatrixXd StepDual::by_inputs(const std::vector<StepFigure>& figures) const {
  const MatrixXd duals = cell_->window_duals(figures);
  MatrixXd by(cell_->inputs(), duals.cols());
  for (Index k = 0; k < duals.cols(); ++k)
    by.col(k) =
        cell_->by_inputs(figures[static_cast<std::size_t>(k)], duals.col(k));
  if (!bend().empty()) by.setConstant(std::numeric_limits<double>::quiet_NaN());
  return by;
}

}  // namespace thinspot::solver
