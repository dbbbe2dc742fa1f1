// Our side of tests/bench/compare, through the library:
//
//   compare_ours TASK FINENESS REPEATS FOLDER
//
// TASK is certified, plain, angles, changes, rack, rack_plain, large, or one of
// them behind "reference_" or "floor_". FINENESS is the tolerance, for large
// the unknowns wanted. Prints lines of a word and numbers: each "figure"
// [A/m2], and for each repeat "cpu" and "wall" seconds; of a reference behind
// each figure what the last refinement changed; of a floor the bytes that must
// be moved and the operations that must be done.
#include "mesh/errors.hpp"
#include "mesh/freed_memory.hpp"
#include "mesh/refine.hpp"
#include "solver/certify.hpp"
#include "solver/turnable.hpp"
#include "tests/bench/compared_cases.hpp"
#include "tests/bench/cpu_clock.hpp"
#include "tests/bench/timing.hpp"

#include <fmt/format.h>
#include <Eigen/CholmodSupport>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

using namespace thinspot;

namespace {

/// In the order in which they are told.
using Figures = std::vector<std::pair<std::string, double>>;

struct Answer {
  Figures figures;
  double unknowns = 0;
  double set_up_cpu = 0, set_up_wall = 0;  ///< not counted
};

// --- figures -----------------------------------------------------------------

struct Extremes {
  double least = HUGE_VAL, largest = -HUGE_VAL;
  void take(double value) {
    least = std::min(least, value);
    largest = std::max(largest, value);
  }
};

/// Of the parabolas along the edges, at their ends, middles and vertices.
void take_extremes(Extremes& e, const solver::Surface& surface,
                   const Eigen::VectorXd& density) {
  for (const solver::SurfaceLoop& loop : surface.loops)
    for (const solver::SurfaceEdge& edge : loop.edges) {
      const double a = density(edge.node[0]), b = density(edge.node[1]),
                   m = density(edge.node[2]), bow = 2 * (a + b - 2 * m);
      for (const double value : {a, b, m}) e.take(value);
      if (std::abs(b - a) < std::abs(bow))
        e.take(m - (b - a) * (b - a) / (4 * bow));
    }
}

void add_figures(Figures& figures, const std::string& behind, const Extremes& e,
                 double mean) {
  figures.emplace_back("least" + behind, e.least);
  figures.emplace_back("mean" + behind, mean);
  figures.emplace_back("largest" + behind, e.largest);
}

void add_figures(Figures& figures, const std::string& behind,
                 const solver::Model& model, const solver::Outcome& outcome) {
  Extremes e;
  double sum = 0;
  for (std::size_t k = 0; k < model.surfaces.size(); ++k) {
    take_extremes(e, model.surfaces[k], outcome.parts[k].current_density);
    sum += outcome.parts[k].current_density_spread.mean;
  }
  add_figures(figures, behind, e,
              sum / static_cast<double>(model.surfaces.size()));
  if (model.surfaces.size() > 1)
    for (std::size_t k = 0; k < model.surfaces.size(); ++k)
      figures.emplace_back(fmt::format("mean_{}{}", k, behind),
                           outcome.parts[k].current_density_spread.mean);
}

double nodes_of(const mesh::Mesh& mesh) {
  return static_cast<double>(mesh.nodes.cols());
}

double unknowns(const solver::Model& model) { return nodes_of(model.mesh); }

// --- tasks -------------------------------------------------------------------

Answer certified(solver::Case c, double tolerance) {
  c.accuracy.tolerance = tolerance;
  const solver::Certified s = solver::certify(solver::build_model(c), c);
  Answer a;
  add_figures(a.figures, "", s.model, s.outcome);
  a.unknowns = unknowns(s.model);
  return a;
}

/// On the first mesh, without its error.
Answer plain(solver::Case c, double tolerance) {
  c.accuracy.tolerance = tolerance;
  const solver::Model model = solver::build_model(c);
  Answer a;
  add_figures(a.figures, "", model, solver::evaluate(model, c));
  a.unknowns = unknowns(model);
  return a;
}

Answer angles(double tolerance, double shift) {
  solver::Case c = bench::coin(0, shift);
  c.accuracy.tolerance = tolerance;
  const auto turnable = solver::build_turnable(c);
  if (!turnable) throw NoResultError("no free circle");
  const solver::Model model = solver::turned_model(*turnable, c);
  const solver::Surface& surface = model.surfaces[0];
  const auto part = static_cast<Eigen::Index>(surface.electrode);
  Answer a;
  for (int k = 0; k < bench::kAngles; ++k) {
    c.section.motion.turn = bench::angle(k);
    const solver::Response there = solver::turned_response(*turnable, c, 0);
    const auto w = solver::find_working_point(there, c, model.scale);
    Extremes e;
    take_extremes(e, surface,
                  solver::current_density(there, w, surface.electrode));
    add_figures(
        a.figures, fmt::format("_{}", k), e,
        w.current(part) / (there.electrodes().each[surface.electrode].measure *
                           model.scale.depth));
  }
  a.unknowns = unknowns(model);
  return a;
}

Answer changes(double tolerance, double shift) {
  const double cpu = bench::cpu_seconds();
  Answer a;
  solver::Case c = bench::coin(0, shift);
  c.accuracy.tolerance = tolerance;
  c.cathode.resistance = bench::changed(0).cathode.resistance;
  std::optional<solver::Model> model;
  a.set_up_wall =
      bench::seconds_of([&] { model.emplace(solver::build_model(c)); });
  a.set_up_cpu = bench::cpu_seconds() - cpu;
  for (int k = 0; k < bench::kChanges; ++k) {
    const solver::Case other = bench::changed(k);
    c.cathode = other.cathode;
    c.supply = other.supply;
    const auto w = solver::find_working_point(model->response, c, model->scale);
    const solver::Surface& surface = model->surfaces[0];
    Extremes e;
    take_extremes(
        e, surface,
        solver::current_density(model->response, w, surface.electrode));
    add_figures(a.figures, fmt::format("_{}", k), e,
                w.current(static_cast<Eigen::Index>(surface.electrode)) /
                    model->scale.part_area);
  }
  a.unknowns = unknowns(*model);
  return a;
}

/// Refined evenly, the first mesh in part before that, to about so many nodes.
mesh::Mesh mesh_of(const mesh::Section& section, const mesh::Mesh& first,
                   double wanted) {
  int rounds = 0;
  while (4 * nodes_of(first) <= wanted) {
    wanted /= 4;
    ++rounds;
  }
  // Neighbours are refined as well: how many to begin with is found by halving.
  std::vector<int> some(static_cast<std::size_t>(first.triangles.cols()));
  std::iota(some.begin(), some.end(), 0);
  const std::span<const int> all(some);
  std::size_t few = 0, many = all.size();
  while (many - few > 1) {
    const std::size_t half = (few + many) / 2;
    const mesh::Mesh tried = mesh::refined(first, section, all.first(half));
    (nodes_of(tried) < wanted ? few : many) = half;
  }
  mesh::Mesh mesh = mesh::refined(first, section, all.first(few));
  for (int k = 0; k < rounds; ++k) mesh = mesh::refined(mesh, section);
  return mesh;
}

/// From a mesh that is there to the figures.
Answer large(double wanted) {
  const double cpu = bench::cpu_seconds();
  const solver::Case c = bench::coin();
  solver::Model first = solver::build_model(c);
  Answer a;
  mesh::Mesh mesh;
  a.set_up_wall = bench::seconds_of(
      [&] { mesh = mesh_of(first.section, first.mesh, wanted); });
  a.set_up_cpu = bench::cpu_seconds() - cpu;
  const solver::Model model =
      solver::build_model(c, std::move(first.section), std::move(mesh));
  add_figures(a.figures, "", model, solver::evaluate(model, c));
  a.unknowns = unknowns(model);
  return a;
}

// --- references --------------------------------------------------------------

constexpr int kEvery = 12;  ///< angle is checked
constexpr int kSome = 67;   ///< changes lie between those that are checked

Figures reference(const std::string& task, double tolerance) {
  Figures all;
  const auto add = [&](solver::Case c, const std::string& behind) {
    c.accuracy.tolerance = tolerance;
    const solver::Certified s = solver::certify(solver::build_model(c), c);
    add_figures(all, behind, s.model, s.outcome);
  };
  if (task == "angles")
    for (int k = 0; k < bench::kAngles; k += kEvery)
      add(bench::coin(bench::angle(k)), fmt::format("_{}", k));
  else if (task == "changes")
    for (int k = 0; k < bench::kChanges; k += kSome)
      add(bench::changed(k), fmt::format("_{}", k));
  else
    add(task == "rack" ? bench::rack_of_48() : bench::coin(), "");
  return all;
}

void print_reference(const std::string& task, double tolerance) {
  const Figures coarser = reference(task, 10 * tolerance);
  const Figures finest = reference(task, tolerance);
  for (std::size_t k = 0; k < finest.size(); ++k)
    fmt::print("figure {} {:.12g} {:.3g}\n", finest[k].first, finest[k].second,
               std::abs(finest[k].second - coarser[k].second));
}

// --- floors ------------------------------------------------------------------

/// Of a direct solve on a mesh: the lower half of the matrix written and read,
/// its Cholesky factor in CHOLMOD's best order written, and read twice.
void add_direct(const solver::Model& model, double& bytes, double& flops) {
  solver::SparseMatrix a = solver::assemble_stiffness(model.mesh);
  Eigen::CholmodSupernodalLLT<solver::SparseMatrix, Eigen::Lower> factor;
  factor.analyzePattern(a);
  const double half = 0.5 * static_cast<double>(a.nonZeros() + a.rows());
  bytes += 2 * 12 * half + 3 * 8 * factor.cholmod().lnz;
  flops += factor.cholmod().fl + 4 * factor.cholmod().lnz;
}

void print_floor(const std::string& task, double tolerance) {
  solver::Case c = task == "rack" ? bench::rack_of_48() : bench::coin();
  c.accuracy.tolerance = tolerance;
  const solver::Model model = solver::build_model(c);
  // Every answer reads the condensed matrix once.
  const double rows =
      static_cast<double>(model.response.electrodes().nodes.mesh_node.size());
  const double answers = task == "angles"    ? bench::kAngles
                         : task == "changes" ? bench::kChanges
                                             : 0;
  double bytes = answers * 8 * rows * rows, flops = answers * 2 * rows * rows;
  if (task == "large") {  // a mesh's matrix read once, for each unknown
    const double nonzeros =
        static_cast<double>(solver::assemble_stiffness(model.mesh).nonZeros());
    bytes = 12 * nonzeros / unknowns(model);
    flops = 2 * nonzeros / unknowns(model);
  } else if (task != "changes") {
    add_direct(model, bytes, flops);
  }
  fmt::print("bytes {:.6g}\nflops {:.6g}\n", bytes, flops);
}

// --- the command line --------------------------------------------------------

/// A hair's breadth further each time, so that nothing can be remembered.
double shift(int repeat) { return 1e-9 * repeat; }

Answer answer(const std::string& task, double fineness, int repeat) {
  if (task == "certified")
    return certified(bench::coin(0, shift(repeat)), fineness);
  if (task == "plain") return plain(bench::coin(0, shift(repeat)), fineness);
  if (task == "angles") return angles(fineness, shift(repeat));
  if (task == "changes") return changes(fineness, shift(repeat));
  if (task == "rack") return certified(bench::rack_of_48(), fineness);
  if (task == "rack_plain") return plain(bench::rack_of_48(), fineness);
  if (task == "large") return large(fineness);
  throw InputError("task", "there is none \"" + task + "\"", "");
}

void run(std::string task, double fineness, int repeats) {
  const auto cut = task.find('_');
  const std::string kind = task.substr(0, cut);
  if (kind == "reference")
    return print_reference(task.substr(cut + 1), fineness);
  if (kind == "floor") return print_floor(task.substr(cut + 1), fineness);
  Answer a;
  for (int k = 0; k < repeats; ++k) {
    const double cpu = bench::cpu_seconds();
    const double wall =
        bench::seconds_of([&] { a = answer(task, fineness, k); });
    fmt::print("cpu {:.6f}\nwall {:.6f}\n",
               bench::cpu_seconds() - cpu - a.set_up_cpu, wall - a.set_up_wall);
    if (a.set_up_cpu > 0) fmt::print("set_up_cpu {:.6f}\n", a.set_up_cpu);
  }
  for (const auto& [name, value] : a.figures)
    fmt::print("figure {} {:.12g}\n", name, value);
  fmt::print("unknowns {}\n", a.unknowns);
}

}  // namespace

int main(int argc, char* argv[]) {
  if (argc != 5) {
    fmt::print(stderr, "compare_ours TASK FINENESS REPEATS FOLDER\n");
    return 2;
  }
  mesh::keep_freed_memory();  // as the program does
  try {
    run(argv[1], std::atof(argv[2]), std::atoi(argv[3]));
  } catch (const std::exception& e) {
    fmt::print(stderr, "{}\n", e.what());
    return 4;
  }
}
