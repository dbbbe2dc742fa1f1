#include "viz/liquid_field.hpp"

#include "mesh/module.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

const ContoursByVtk& by_vtk() {
  return *static_cast<const ContoursByVtk*>(
      mesh::opened_module(contours_module));
}

}  // namespace

LiquidField::LiquidField(const solver::Result& result) {
  const FineMesh fine = fine_mesh(result);
  contours_ = by_vtk().of(fine);
  lowest_ = fine.potential.minCoeff();
  highest_ = fine.potential.maxCoeff();
  const Eigen::VectorXd strength = fine.current_density.colwise().norm();
  for (Eigen::Index t = 0; t < fine.triangles.cols(); ++t) {
    const Eigen::Vector3i three = fine.triangles.col(t);
    const mesh::Point u = fine.nodes.col(three[1]) - fine.nodes.col(three[0]);
    const mesh::Point v = fine.nodes.col(three[2]) - fine.nodes.col(three[0]);
    double sum = 0;
    for (const int k : three) sum += strength[k];
    strengths_.emplace_back(sum / 3,
                            0.5 * std::abs(u.x() * v.y() - u.y() * v.x()));
  }
  std::sort(strengths_.begin(), strengths_.end());
}

std::vector<Chain> LiquidField::equipotential(double volts) const {
  return contours_->equipotential(volts);
}

std::vector<std::vector<Chain>> LiquidField::regions_above(
    const std::vector<double>& levels) const {
  return contours_->regions_above(levels);
}

Chain LiquidField::upstream(const mesh::Point& seed) const {
  return contours_->upstream(seed);
}

double LiquidField::current_density_quantile(double share) const {
  double whole = 0;
  for (const auto& [strength, area] : strengths_) whole += area;
  double sum = 0;
  for (const auto& [strength, area] : strengths_) {
    sum += area;
    if (sum >= share * whole) return strength;
  }
  return strengths_.empty() ? 0 : strengths_.back().first;
}

}  // namespace thinspot::viz
