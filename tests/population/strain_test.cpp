// Numbers under strain: what stands in no workshop still ends in a result
// within its bars, or in one clear line, and soon.
#include "certified_figures.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "solver/certify.hpp"
#include "solver/simulate.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <stdexcept>
#include <string>
#include <vector>

using namespace thinspot;

namespace {

/// Processor time of a result [s]; by the clock a hang is told from a machine
/// that has other things to do.
constexpr double kMostTime = 20;
constexpr unsigned kPatience = 300;

struct Strain {
  std::string shape;    ///< plate, rod, coin
  double size;          ///< largest of the part [m]
  double aspect;        ///< largest over least
  double conductivity;  ///< [S/m]
  double resistance;    ///< of part and anode [ohm m2]

  std::string text() const {
    return fmt::format("{} of {} m, aspect {}, {} S/m, {} ohm m2", shape, size,
                       aspect, conductivity, resistance);
  }
};

mesh::Sizes sizes_of(const Strain& s) {
  const double thin = s.size / s.aspect;
  if (s.shape == "plate") return {{"width", thin}, {"height", s.size}};
  if (s.shape == "rod") return {{"diameter", thin}, {"length", s.size}};
  return {
      {"diameter", s.size}, {"thickness", thin}, {"edge_radius", 0.2 * thin}};
}

/// A part in the middle of a tank of three times its size, one anode beside.
solver::Case set_up(const Strain& s) {
  const double size = s.size;
  const bool planar = s.shape == "plate";
  solver::Case c;
  c.section.cut = planar ? mesh::Cut::side : mesh::Cut::axisymmetric;
  c.section.tank = {mesh::Tank::Shape::box, 3 * size, 4 * size, 3.5 * size};
  c.section.solids = {
      tests::solid(mesh::Role::part, "part", s.shape, sizes_of(s),
                   {planar ? 1.5 * size : 0, 1.7 * size}),
      tests::solid(mesh::Role::anode, "anode", "plate",
                   {{"width", 0.05 * size}, {"height", 2 * size}},
                   {planar ? 0.3 * size : 1.2 * size, 1.7 * size})};
  if (planar) c.depth = size;
  c.solution.metal = {"copper", 0.063546, 2, 8960, "IUPAC"};
  c.solution.conductivity.value = s.conductivity;
  c.cathode.resistance.value = s.resistance;
  solver::Anode anode;
  anode.name = "anode";
  anode.solid = 1;
  anode.metal = "copper";
  anode.polarization.resistance.value = s.resistance;
  c.anodes = {anode};
  // On what is thicker than a hand's breadth, a tenth of a millimetre at a
  // sharp corner is beyond meshing in seconds: docs/reliability.md says so.
  c.accuracy.averaging_length = std::max(1e-4, size / s.aspect / 100);
  c.supply.voltage = solver::Quantity{1, 0};
  c.steps = {{{60, 0}}};
  return c;
}

std::vector<tests::CertifiedFigure> solved(const Strain& s, double finer) {
  const auto work = [&] {
    solver::Case c = set_up(s);
    mesh::Bytes bytes;
    if (finer == 1) {
      const std::clock_t before = std::clock();
      const solver::Result r = solver::simulate(c);
      if (double(std::clock() - before) > kMostTime * CLOCKS_PER_SEC)
        throw std::runtime_error("it took too much of the processor's time");
      for (const solver::PartResult& part : r.parts)
        for (const solver::SurfacePoint& p : part.surface)
          if (!std::isfinite(p.thickness) || !std::isfinite(p.current_density))
            throw std::runtime_error("a number is not finite");
    }
    c.accuracy.tolerance /= finer;
    bytes.put_all(tests::figures(solver::certify(solver::build_model(c), c)));
    return bytes.text();
  };
  mesh::Bytes bytes(mesh::in_child(work, "it", kPatience));
  return bytes.take_all<tests::CertifiedFigure>();
}

struct Count {
  int set_ups = 0, refused = 0, figures = 0, held = 0, without = 0;
  std::vector<std::string> wrong;
};

/// No crash, no hang, no number that is none.
/// @param finer  the reference's tolerance against the user's
void judge(const Strain& s, double finer, Count& count) {
  ++count.set_ups;
  std::vector<tests::CertifiedFigure> tried;
  try {
    tried = solved(s, 1);
  } catch (const NoResultError& error) {
    const std::string why = error.what();
    ++count.refused;
    if (why.find('\n') != std::string::npos || why.starts_with("it ") ||
        why.find("not finite") != std::string::npos)
      count.wrong.push_back(s.text() + ": " + why);
    else
      fmt::print("refused: {}: {}\n", s.text(), why);
    return;
  }
  for (const tests::CertifiedFigure& f : tried)
    if (!std::isfinite(f.value) || !std::isfinite(f.bar) || !(f.bar >= 0))
      return count.wrong.push_back(s.text() + ": a figure is not finite");
  std::vector<tests::CertifiedFigure> truth;
  try {
    truth = solved(s, finer);
  } catch (const NoResultError&) {
    ++count.without;
    return;
  }
  for (std::size_t k = 0; k < tried.size(); ++k) {
    ++count.figures;
    const double error = std::abs(tried[k].value - truth[k].value);
    const double bar =
        tried[k].bar + truth[k].bar + 1e-8 * tried[k].scale;  // rounding
    if (error <= bar)
      ++count.held;
    else
      fmt::print("{}: figure {}: error {:.2e} beyond its bar of {:.2e}\n",
                 s.text(), k, error / tried[k].scale, bar / tried[k].scale);
  }
}

struct Body {
  double size, aspect;
};

Count judge_all(const std::vector<std::string>& shapes,
                const std::vector<Body>& bodies,
                const std::vector<double>& conductivities,
                const std::vector<double>& resistances, double finer) {
  Count count;
  for (const std::string& shape : shapes)
    for (const Body& body : bodies)
      for (const double conductivity : conductivities)
        for (const double resistance : resistances)
          judge({shape, body.size, body.aspect, conductivity, resistance},
                finer, count);
  fmt::print(
      "{} set-ups, {} refused, {} without reference; {} of {} bars "
      "hold\n",
      count.set_ups, count.refused, count.without, count.held, count.figures);
  std::fflush(stdout);
  for (const std::string& wrong : count.wrong) FAIL_CHECK(wrong);
  CHECK(count.figures > 3 * count.set_ups);
  CHECK(count.held >= 0.95 * count.figures);
  return count;
}

}  // namespace

TEST_CASE("strained numbers: corners of the range", "[short]") {
  judge_all({"plate", "rod", "coin"}, {{1e-5, 1.5}, {2.5, 10}}, {1e-6, 1e3},
            {0, 100}, 4);
}

TEST_CASE("strained numbers: a foil", "[short]") {
  // Gmsh went to and fro beside its corners, so that all was meshed twice
  // there: the heaviest spot was off by 250 bars.
  const Count foil = judge_all({"plate"}, {{0.1, 1000}}, {1}, {0, 1e-4}, 4);
  CHECK(foil.held == foil.figures);
}

TEST_CASE("strained numbers: the whole grid") {
  judge_all({"plate", "rod", "coin"},
            {{1e-5, 1.5},
             {1e-4, 10},
             {1e-3, 100},
             {0.1, 1.5},
             {0.1, 1000},
             {0.1, 1e4},
             {2.5, 10},
             {2.5, 1e4}},
            {1e-6, 1e-2, 1, 1e3}, {0, 1e-6, 1e-4, 1, 100}, 20);
}
