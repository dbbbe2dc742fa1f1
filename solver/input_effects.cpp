#include "solver/input_effects.hpp"

#include "solver/draws.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <set>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Share of a thickness below which a change of it is not looked into: about
/// what the mesh may be off.
constexpr double kSeen = 1e-3;
/// Any number does: draws are to be the same every time.
constexpr std::uint64_t kSeed = 20070201;

double count_groups(const std::vector<LayerOfSteps>& layers) {
  double directions = 0;
  for (const LayerOfSteps& layer : layers)
    for (const InputGroup& group : layer.groups)
      directions += static_cast<double>(group.keys.size());
  return directions;
}

/// Sums of squares by which `bend` is told, of each part.
struct Bends {
  VectorXd bent, straight;
};

void count_bend(const Schedule& s, const RowPlaces& places,
                const VectorXd& base, const VectorXd& minus,
                const VectorXd& plus, Bends& bends) {
  for (std::size_t p = 0; p < s.coats.size(); ++p) {
    const Index k = places.least_judged(p);
    const auto of = static_cast<Index>(p);
    bends.bent(of) += std::pow(plus(k) + minus(k) - 2 * base(k), 2);
    bends.straight(of) += std::pow(plus(k) - minus(k), 2);
  }
}

/// Numbers of one group in a draw.
VectorXd drawn_values(const InputGroup& group, const VectorXd& normals) {
  const Eigen::LLT<MatrixXd> factor(group.correlation);
  const VectorXd together = factor.matrixL() * normals;
  VectorXd values = values_of(group);
  for (Index k = 0; k < values.size(); ++k) {
    const Quantity& q = group.stated[static_cast<std::size_t>(k)];
    values(k) += q.evenly ? q.plus_minus * (2 * normal_share(together(k)) - 1)
                          : q.plus_minus / kOf95 * together(k);
  }
  return values;
}

}  // namespace

InputEffects input_effects(const Schedule& s,
                           const std::vector<LayerOfSteps>& layers,
                           const Progress& progress) {
  const MovedInputs moved(s);
  const RowPlaces places = row_places(s);
  InputEffects e;
  e.base = row_as_solved(s);
  e.share = VectorXd::Ones(places.size);
  // What a quantity changes is found on the surface as drawn, and is the same
  // share of the figure where the surface moves.
  VectorXd drawn = e.base;
  if (s.growth) {
    drawn = moved.row(layers.front());
    for (Index k = 0; k < places.size; ++k)
      if (drawn(k) != 0) e.share(k) = e.base(k) / drawn(k);
  }
  e.up = e.down = VectorXd::Zero(places.size);
  const auto parts = static_cast<Index>(s.coats.size());
  Bends bends{VectorXd::Zero(parts), VectorXd::Zero(parts)};
  const double all = 2 * count_groups(layers);
  double done = 0;
  for (std::size_t l = 0; l < layers.size(); ++l)
    for (std::size_t g = 0; g < layers[l].groups.size(); ++g) {
      const InputGroup& group = layers[l].groups[g];
      InputEffect& effect = e.each.emplace_back();
      effect = {l, g, VectorXd::Zero(places.figures),
                VectorXd::Zero(places.figures)};
      for (const Direction& along : directions_of(group)) {
        VectorXd end[2];
        for (int side = 0; side < 2; ++side) {
          LayerOfSteps layer = layers[l];
          const double sign = side == 0 ? -1 : 1;
          set_quantities(layer.used, group,
                         values_of(group) + sign * along.reach * along.change);
          progress.at(done++ / all);
          end[side] = moved.row(layer);
          const VectorXd change =
              e.share.cwiseProduct(end[side] - drawn) / along.reach;
          const VectorXd up = change.cwiseMax(0).cwiseAbs2(),
                         down = change.cwiseMin(0).cwiseAbs2();
          e.up += up;
          e.down += down;
          effect.up += up.head(places.figures);
          effect.down += down.head(places.figures);
        }
        count_bend(s, places, drawn, end[0], end[1], bends);
        for (std::size_t p = 0; p < s.coats.size(); ++p) {
          const Index k = places.least_judged(p);
          if (std::min(end[0](k), end[1](k)) <= 0 && drawn(k) > 0)
            e.stops = true;
        }
      }
    }
  for (Index p = 0; p < parts; ++p) {
    // What hardly moves at all, or by rounding alone, has no shape.
    const double seen =
        kSeen * drawn(places.least_judged(static_cast<std::size_t>(p)));
    if (bends.straight(p) > 0 &&
        bends.straight(p) + bends.bent(p) > seen * seen)
      e.bend = std::max(e.bend, std::sqrt(bends.bent(p) / bends.straight(p)));
  }
  return e;
}

MatrixXd drawn_rows(const Schedule& s, const std::vector<LayerOfSteps>& layers,
                    const InputEffects& effects, Index draws,
                    const Progress& progress) {
  const MovedInputs moved(s);
  const auto inputs = static_cast<Index>(count_groups(layers));
  const MatrixXd normals = drawn_normals(draws, inputs, kSeed);
  MatrixXd rows(draws, effects.base.size());
  for (Index n = 0; n < draws; ++n) {
    progress.at(static_cast<double>(n) / static_cast<double>(draws));
    std::vector<LayerOfSteps> there = layers;
    Index first = 0;
    for (LayerOfSteps& layer : there)
      for (const InputGroup& group : layer.groups) {
        const auto count = static_cast<Index>(group.keys.size());
        set_quantities(
            layer.used, group,
            drawn_values(group, normals.row(n).segment(first, count)));
        first += count;
      }
    rows.row(n) = effects.share.cwiseProduct(moved.row(there)).transpose();
  }
  return rows;
}

double work_of_draw(const Schedule& s) {
  // Laying down a phase's coat takes about as long as so many of them.
  constexpr double kPhase = 1e6;
  std::set<const Certified*> solved;
  double work = kPhase * static_cast<double>(s.steps.size());
  for (const SolvedStep& step : s.steps) {
    const Certified* of = step.solved.get();
    const auto rows = static_cast<double>(
        of->model.response.electrodes().nodes.mesh_node.size());
    if (solved.insert(of).second) work += rows * rows * rows / 3;
  }
  return work;
}

}  // namespace thinspot::solver
