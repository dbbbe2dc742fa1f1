#include "solver/tangent.hpp"

#include "solver/element.hpp"

namespace thinspot::solver {

namespace {

using Eigen::Index;

struct Line {
  double slope = 0, rest = 0;
};

/// What stands in series takes series * density of the overpotential.
Line line_at(const LawCurve& curve, bool anode, double series, double over) {
  const LawCurve::Point p = curve.at(over);
  const double less = 1 + series * p.slope;
  const double rest = (p.density - p.slope * over) / less;
  return {p.slope / less, anode ? -rest : rest};
}

}  // namespace

std::shared_ptr<const Tangent> tangent_at(const Electrode& electrode,
                                          const LawCurve& curve, bool anode,
                                          double series,
                                          const OverPotentials& over) {
  auto made = std::make_shared<Tangent>();
  Tangent& t = *made;
  t.over = over;
  const auto n = static_cast<Index>(electrode.rows.size());
  t.node_slope.resize(n);
  t.node_rest.resize(n);
  for (Index k = 0; k < n; ++k) {
    const Line line = line_at(curve, anode, series, over.nodes(k));
    t.node_slope(k) = line.slope;
    t.node_rest(k) = line.rest;
  }
  t.rest = Eigen::VectorXd::Zero(n);
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(9 * electrode.edges.size());
  t.edges.resize(electrode.edges.size());
  for (std::size_t k = 0; k < electrode.edges.size(); ++k) {
    const ElectrodeEdge& edge = electrode.edges[k];
    Eigen::Matrix3d mass = Eigen::Matrix3d::Zero();
    for (std::size_t q = 0; q < 4; ++q) {
      const Line line = line_at(curve, anode, series, over.gauss[k][q]);
      t.edges[k].slope[q] = line.slope;
      t.edges[k].rest[q] = line.rest;
      const Eigen::Vector3d shape = edge_functions(gauss_rule()[q].t);
      mass += edge.size[q] * line.slope * shape * shape.transpose();
      for (std::size_t j = 0; j < 3; ++j)
        t.rest(edge.place[j]) +=
            edge.size[q] * line.rest * shape(static_cast<Index>(j));
    }
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j)
        entries.emplace_back(
            edge.place[i], edge.place[j],
            mass(static_cast<Index>(i), static_cast<Index>(j)));
  }
  t.mass.resize(n, n);
  t.mass.setFromTriplets(entries.begin(), entries.end());
  t.weight = t.mass * Eigen::VectorXd::Ones(n);
  return made;
}

}  // namespace thinspot::solver
