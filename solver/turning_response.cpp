#include "solver/turning_response.hpp"

#include "mesh/errors.hpp"
#include "mesh/turning_disc.hpp"
#include "solver/laplace.hpp"
#include "solver/linear_solve.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Sets of laws that are remembered, those used last: as stated, and at each
/// position while polarization, a resistor or a limit is looked for. Each takes
/// some megabytes.
constexpr std::size_t kRemembered = 12;

constexpr const char* kNotDefinite =
    "the response of the section with its turning parts is not definite: the "
    "mesh or the section is unsound";

/// Values of a circle's waves at an angle on it.
Eigen::RowVectorXd waves_at(double angle, int waves) {
  Eigen::RowVectorXd w(2 * waves + 1);
  w(0) = 1;
  for (int n = 1; n <= waves; ++n) {
    w(2 * n - 1) = std::cos(n * angle);
    w(2 * n) = std::sin(n * angle);
  }
  return w;
}

struct OnCircle {
  std::size_t disc = 0;
  bool inside = false;
};

std::map<int, OnCircle> nodes_on_circles(const mesh::Mesh& mesh,
                                         const mesh::Section& section) {
  const std::vector<int> disc = mesh::disc_of_triangles(mesh, section.discs);
  std::map<int, OnCircle> nodes;
  for (const mesh::BoundaryEdge& e : mesh.boundary) {
    if (e.owner != mesh::kDisc) continue;
    const bool inside = disc[static_cast<std::size_t>(e.triangle)] == e.loop;
    for (int node : e.nodes)
      nodes[node] = {static_cast<std::size_t>(e.loop), inside};
  }
  return nodes;
}

double of_norms(const MatrixXd& a, const MatrixXd& x, const MatrixXd& b) {
  return relative_residual((product(a, x) - b).norm(),
                           a.norm() * x.norm() + b.norm());
}

/// The residual of one mixture of the columns, in which none can hide: to look
/// at each would take as long as to solve them.
double of_mixture(const MatrixXd& a, const MatrixXd& x, const MatrixXd& b) {
  VectorXd mixed(x.cols());
  for (Index k = 0; k < mixed.size(); ++k)
    mixed(k) = std::cos(static_cast<double>(k * k));
  return of_norms(a, x * mixed, b * mixed);
}

bool alike(const LocalLaws& a, const LocalLaws& b,
           const std::vector<std::size_t>& electrodes) {
  return std::all_of(electrodes.begin(), electrodes.end(), [&](std::size_t e) {
    return a.resistance[e] == b.resistance[e] && a.tangent(e) == b.tangent(e);
  });
}

}  // namespace

TurningResponse::TurningResponse(const mesh::Mesh& mesh,
                                 const mesh::Section& section, int waves)
    : electrodes_(find_electrodes(mesh, section)),
      waves_(waves),
      discs_(static_cast<Index>(section.discs.size())),
      unknown_(static_cast<std::size_t>(mesh.nodes.cols()), -1) {
  find_regions(mesh, section);
  const auto circle = nodes_on_circles(mesh, section);
  std::vector<int> row;  // of each unknown
  for (std::size_t node = 0; node < unknown_.size(); ++node) {
    if (circle.contains(static_cast<int>(node))) continue;
    unknown_[node] = static_cast<int>(row.size());
    row.push_back(electrodes_.nodes.row[node]);
  }
  const auto first_wave = static_cast<int>(row.size());
  const auto nb = static_cast<int>(electrodes_.nodes.mesh_node.size());
  for (int k = 0; k < static_cast<int>(2 * all()); ++k) row.push_back(nb + k);

  shape_ = MatrixXd::Zero(static_cast<Index>(circle.size()), 2 * all());
  std::vector<Eigen::Triplet<double>> entries;
  for (const auto& [node, on] : circle) {
    const mesh::Point p = mesh.nodes.col(node) - section.discs[on.disc].centre;
    const Index first =
        (on.inside ? 0 : all()) + static_cast<Index>(on.disc) * each();
    const auto k = static_cast<Index>(on_circle_.size());
    shape_.row(k).segment(first, each()) =
        waves_at(std::atan2(p.y(), p.x()), waves);
    for (Index j = 0; j < each(); ++j)
      entries.emplace_back(node, first + j, shape_(k, first + j));
    on_circle_.push_back(node);
  }
  const SparseMatrix stiffness = assemble_stiffness(mesh);
  SparseMatrix of_waves(stiffness.rows(), 2 * all());
  of_waves.setFromTriplets(entries.begin(), entries.end());
  const SparseMatrix beside = stiffness * of_waves;
  const SparseMatrix among = of_waves.transpose() * beside;

  entries.clear();
  for (Index k = 0; k < stiffness.outerSize(); ++k)
    for (SparseMatrix::InnerIterator it(stiffness, k); it; ++it) {
      const int a = unknown_[static_cast<std::size_t>(it.row())],
                b = unknown_[static_cast<std::size_t>(it.col())];
      if (a >= 0 && b >= 0) entries.emplace_back(a, b, it.value());
    }
  for (Index k = 0; k < beside.outerSize(); ++k)
    for (SparseMatrix::InnerIterator it(beside, k); it; ++it) {
      const int a = unknown_[static_cast<std::size_t>(it.row())],
                wave = first_wave + static_cast<int>(it.col());
      if (a < 0) continue;
      entries.emplace_back(a, wave, it.value());
      entries.emplace_back(wave, a, it.value());
    }
  for (Index k = 0; k < among.outerSize(); ++k)
    for (SparseMatrix::InnerIterator it(among, k); it; ++it)
      entries.emplace_back(first_wave + static_cast<int>(it.row()),
                           first_wave + static_cast<int>(it.col()), it.value());
  const auto n = static_cast<Index>(row.size());
  SparseMatrix reduced(n, n);
  reduced.setFromTriplets(entries.begin(), entries.end());

  Condensed condensed = condense(reduced, row);
  const MatrixXd& s = condensed.on_electrodes;
  electrodes_on_ = s.topLeftCorner(nb, nb);
  between_ = s.topRightCorner(nb, 2 * all());
  waves_on_ = s.bottomRightCorner(2 * all(), 2 * all());
  interior_ = std::move(condensed.interior);
}

void TurningResponse::find_regions(const mesh::Mesh& mesh,
                                   const mesh::Section& section) {
  const auto outside = static_cast<std::size_t>(discs_);
  for (Index d = 0; d < discs_; ++d)
    regions_.push_back({{}, {}, d * each(), each()});
  regions_.push_back({{}, {}, all(), all()});
  const std::vector<int>& row_of = electrodes_.nodes.row;
  std::vector<std::size_t> region(electrodes_.nodes.mesh_node.size(), outside);
  const std::vector<int> disc = mesh::disc_of_triangles(mesh, section.discs);
  for (const mesh::BoundaryEdge& edge : mesh.boundary) {
    const int in = disc[static_cast<std::size_t>(edge.triangle)];
    if (edge.owner < 0 || in < 0) continue;
    for (int node : edge.nodes)
      if (const int row = row_of[static_cast<std::size_t>(node)]; row >= 0)
        region[static_cast<std::size_t>(row)] = static_cast<std::size_t>(in);
  }
  for (std::size_t row = 0; row < region.size(); ++row)
    regions_[region[row]].rows.push_back(static_cast<int>(row));
  for (std::size_t e = 0; e < electrodes_.each.size(); ++e) {
    const std::vector<int>& rows = electrodes_.each[e].rows;
    if (rows.empty()) continue;  // masked all over
    const std::size_t here = region[static_cast<std::size_t>(rows.front())];
    regions_[here].electrodes.push_back(e);
  }
}

MatrixXd TurningResponse::of_side(bool inside) const {
  const Index nb = electrodes_on_.rows(), first = inside ? 0 : all();
  MatrixXd side(nb + all(), nb + all());
  side.topLeftCorner(nb, nb) = electrodes_on_;
  side.topRightCorner(nb, all()) = between_.middleCols(first, all());
  side.bottomLeftCorner(all(), nb) =
      between_.middleCols(first, all()).transpose();
  side.bottomRightCorner(all(), all()) =
      waves_on_.block(first, first, all(), all());
  return side;
}

MatrixXd TurningResponse::both_sides(const At& at,
                                     const MatrixXd& outside) const {
  MatrixXd both = MatrixXd::Zero(2 * all(), outside.cols());
  const Index used = 2 * at.waves + 1;
  for (Index d = 0; d < discs_; ++d) {
    const Index in = d * each(), out = all() + in, from = d * used;
    both.middleRows(out, used) = outside.middleRows(from, used);
    both.row(in) = outside.row(from);
    for (int n = 1; n <= at.waves; ++n) {
      const double c = std::cos(n * at.angle), s = std::sin(n * at.angle);
      const auto cosine = outside.row(from + 2 * n - 1);
      const auto sine = outside.row(from + 2 * n);
      both.row(in + 2 * n - 1) = c * cosine + s * sine;
      both.row(in + 2 * n) = c * sine - s * cosine;
    }
  }
  return both;
}

MatrixXd TurningResponse::one_side(const At& at, const MatrixXd& both) const {
  const Index used = 2 * at.waves + 1;
  MatrixXd one(discs_ * used, both.cols());
  for (Index d = 0; d < discs_; ++d) {
    const Index in = d * each(), out = all() + in, to = d * used;
    one.middleRows(to, used) = both.middleRows(out, used);
    one.row(to) += both.row(in);
    for (int n = 1; n <= at.waves; ++n) {
      const double c = std::cos(n * at.angle), s = std::sin(n * at.angle);
      const auto cosine = both.row(in + 2 * n - 1);
      const auto sine = both.row(in + 2 * n);
      one.row(to + 2 * n - 1) += c * cosine - s * sine;
      one.row(to + 2 * n) += c * sine + s * cosine;
    }
  }
  return one;
}

MatrixXd TurningResponse::system(const At& at, const MatrixXd& both) const {
  const MatrixXd half = one_side(at, both);
  return one_side(at, half.transpose());
}

std::shared_ptr<const TurningResponse::Eliminated> TurningResponse::eliminated(
    std::size_t region, const Laws& laws) const {
  const Region& here = regions_[region];
  for (const auto& known : memory_)
    if (known->conductivity == laws.conductivity &&
        alike(known->of_electrodes, laws.of_electrodes, here.electrodes))
      return known->regions[region];
  Eliminated e;
  std::vector<Index> place(laws.rows.held.size(), -1);
  for (int row : here.rows) {
    if (laws.rows.held[static_cast<std::size_t>(row)]) continue;
    place[static_cast<std::size_t>(row)] = static_cast<Index>(e.free.size());
    e.free.push_back(row);
  }
  MatrixXd system = laws.conductivity * electrodes_on_(e.free, e.free);
  for_each_law_entry(electrodes_, laws.of_electrodes,
                     [&](int j, int k, double value) {
                       const Index row = place[static_cast<std::size_t>(k)],
                                   column = place[static_cast<std::size_t>(j)];
                       if (row >= 0 && column >= 0)
                         system(row, column) += value;
                     });
  e.beside =
      laws.conductivity * between_(e.free, Eigen::seqN(here.first, here.waves));
  e.pulled = e.lift = MatrixXd::Zero(here.waves, here.waves);
  if (e.free.empty()) return std::make_shared<const Eliminated>(std::move(e));
  e.factor = DenseCholesky(system);
  if (!e.factor.is_definite()) throw NoResultError(kNotDefinite);
  e.lift = e.factor.solve(e.beside);
  e.residual = of_mixture(system, e.lift, e.beside);
  e.pulled = dense_transposed_product(e.beside, e.lift);
  return std::make_shared<const Eliminated>(std::move(e));
}

TurningResponse::Laws& TurningResponse::laws(
    double conductivity, const LocalLaws& electrode_laws) const {
  const auto known =
      std::find_if(memory_.begin(), memory_.end(), [&](const auto& each) {
        return each->conductivity == conductivity &&
               each->of_electrodes == electrode_laws;
      });
  if (known != memory_.end()) {
    std::rotate(known, known + 1, memory_.end());  // the youngest again
    return *memory_.back();
  }
  if (memory_.size() == kRemembered) memory_.erase(memory_.begin());
  auto made = std::make_unique<Laws>();
  Laws& l = *made;
  l.conductivity = conductivity;
  l.of_electrodes = electrode_laws;
  l.rows = find_fixed(electrodes_, electrode_laws);
  l.from_fixed = electrodes_on_(Eigen::all, l.rows.fixed);
  l.waves_on_fixed = between_(l.rows.fixed, Eigen::all);
  l.waves = conductivity * waves_on_;
  for (std::size_t k = 0; k < regions_.size(); ++k) {
    l.regions.push_back(eliminated(k, l));
    const Region& r = regions_[k];
    l.waves.block(r.first, r.first, r.waves, r.waves) -= l.regions[k]->pulled;
    l.residual = std::max(l.residual, l.regions[k]->residual);
  }
  memory_.push_back(std::move(made));
  return l;
}

void TurningResponse::load(Laws& l, const MatrixXd& loads,
                           const MatrixXd& held) const {
  if (l.loads.cols() == loads.cols() && l.loads == loads && l.held == held)
    return;
  const auto& fixed = l.rows.fixed;
  l.pull = MatrixXd::Zero(2 * all(), loads.cols());
  const MatrixXd values = l.conductivity * held(fixed, Eigen::all);
  if (!fixed.empty())
    l.pull -= between_(fixed, Eigen::all).transpose() * values;
  l.alone.clear();
  for (std::size_t k = 0; k < regions_.size(); ++k) {
    const Eliminated& e = *l.regions[k];
    MatrixXd right = loads(e.free, Eigen::all);
    if (!e.free.empty()) {
      if (!fixed.empty()) right -= electrodes_on_(e.free, fixed) * values;
      right = e.factor.solve(std::move(right));
      l.pull.middleRows(regions_[k].first, regions_[k].waves) -=
          e.beside.transpose() * right;
    }
    l.alone.push_back(std::move(right));
  }
  l.loads = loads;
  l.held = held;
}

BoundaryAnswer TurningResponse::solve(const At& at, double conductivity,
                                      const LocalLaws& electrode_laws,
                                      const MatrixXd& loads,
                                      const MatrixXd& held) const {
  Laws& l = laws(conductivity, electrode_laws);
  load(l, loads, held);
  const MatrixXd s = system(at, l.waves), right = one_side(at, l.pull);
  const DenseCholesky factor(s);
  if (!factor.is_definite()) throw NoResultError(kNotDefinite);
  const MatrixXd x = factor.solve(right);
  const MatrixXd both = both_sides(at, x);
  BoundaryAnswer answer;
  answer.relative_residual = std::max(l.residual, of_norms(s, x, right));
  answer.potential = held;
  for (std::size_t k = 0; k < regions_.size(); ++k) {
    const Eliminated& e = *l.regions[k];
    if (e.free.empty()) continue;
    answer.potential(e.free, Eigen::all) =
        l.alone[k] -
        product(e.lift, both.middleRows(regions_[k].first, regions_[k].waves));
  }
  const auto& fixed = l.rows.fixed;
  answer.reaction = MatrixXd::Zero(held.rows(), held.cols());
  if (fixed.empty()) return answer;
  const Eigen::RowVectorXd mean = answer.potential.colwise().mean();
  MatrixXd waves = both;
  for (Index d = 0; d < 2 * discs_; ++d) waves.row(d * each()) -= mean;
  answer.reaction(fixed, Eigen::all) =
      transposed_product(l.from_fixed, without_mean(answer.potential)) +
      product(l.waves_on_fixed, waves);
  return answer;
}

MatrixXd TurningResponse::waves_for(const At& at,
                                    const MatrixXd& boundary) const {
  const DenseCholesky factor(system(at, waves_on_));
  if (!factor.is_definite()) throw NoResultError(kNotDefinite);
  return factor.solve(-one_side(at, between_.transpose() * boundary));
}

MatrixXd TurningResponse::everywhere(const At& at,
                                     const MatrixXd& boundary) const {
  const MatrixXd waves = both_sides(at, waves_for(at, boundary));
  MatrixXd held(boundary.rows() + waves.rows(), boundary.cols());
  held << boundary, waves;
  const MatrixXd reduced = interior_.extend(held);
  MatrixXd nodes(static_cast<Index>(unknown_.size()), boundary.cols());
  for (std::size_t k = 0; k < unknown_.size(); ++k)
    if (unknown_[k] >= 0)
      nodes.row(static_cast<Index>(k)) = reduced.row(unknown_[k]);
  nodes(on_circle_, Eigen::all) = shape_ * waves;
  return nodes;
}

MatrixXd TurningResponse::flux(const At& at, const MatrixXd& boundary) const {
  const MatrixXd waves = both_sides(at, waves_for(at, boundary));
  return between_.rightCols(all()).transpose() * boundary +
         waves_on_.bottomRows(all()) * waves;
}

}  // namespace thinspot::solver
