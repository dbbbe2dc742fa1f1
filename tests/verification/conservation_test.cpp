// What flows in flows out, whatever the laws; and the condensed operator is
// the matrix it claims to be.
#include "bench_cases.hpp"
#include "mesh/generate.hpp"
#include "solver/model.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

TEST_CASE("currents balance and faces add up", "[property]") {
  const double cathode = GENERATE(0.0, 1e-6, 2.6e-4, 1e-1);
  CAPTURE(cathode);
  auto c = tests::token();
  c.cathode.resistance.value = cathode;
  if (cathode == 0) c.cathode.at.reset();
  const auto result = solver::simulate(c);
  double anodes = 0, faces = 0, area = 0;
  for (const auto& a : result.anodes) anodes += a.current;
  const auto& part = result.parts[0];
  for (const auto& f : part.faces) {
    faces += f.current;
    area += f.area;
  }
  CHECK(anodes == Approx(0.33).epsilon(1e-9));
  CHECK(part.current == Approx(0.33).epsilon(1e-9));
  CHECK(faces == Approx(part.current).epsilon(1e-8));
  CHECK(area == Approx(part.area).epsilon(1e-9));
  CHECK(result.evidence.current_imbalance < 1e-9);
  double weights = 0;
  for (const auto& p : part.surface) weights += p.weight;
  CHECK(weights == Approx(part.area).epsilon(1e-9));
}

TEST_CASE("condensed operator: symmetric, constants in its kernel, positive",
          "[property]") {
  const auto model = solver::build_model(tests::token());
  const Eigen::MatrixXd& s = model.response.condensed();
  REQUIRE(s.rows() > 50);
  const double scale = s.norm();
  CHECK((s - s.transpose()).norm() <= 1e-12 * scale);
  CHECK((s * Eigen::VectorXd::Ones(s.rows())).norm() <= 1e-12 * scale);
  const Eigen::VectorXd wave = Eigen::VectorXd::LinSpaced(s.rows(), -1, 1);
  CHECK(wave.dot(s * wave) > 0);
}

TEST_CASE("a mirrored set-up gives the mirrored answer", "[property]") {
  const auto c = tests::token();
  auto mirrored = c;
  for (auto& solid : mirrored.section.solids)
    solid.at.x() = 0.09 - solid.at.x();
  const auto a = solver::simulate(c), b = solver::simulate(mirrored);
  const auto face = [](const solver::Result& r, const char* name) {
    for (const auto& f : r.parts[0].faces)
      if (f.name == name) return f.thickness.mean;
    return -1.0;
  };
  // Two meshes, each within the tolerance asked for.
  CHECK(face(a, "left") == Approx(face(b, "right")).epsilon(2e-3));
  CHECK(face(a, "right") == Approx(face(b, "left")).epsilon(2e-3));
  CHECK(face(a, "left") > 1.2 * face(a, "right"));
}

TEST_CASE("the tolerance asked for is kept against a finer mesh",
          "[property]") {
  // The finer run's own error, a tenth, comes on top.
  const double cathode = GENERATE(0.0, 2.6e-5, 2.6e-4, 2.6e-3);
  CAPTURE(cathode);
  auto c = tests::token();
  c.cathode.resistance.value = cathode;
  c.cathode.at.reset();
  c.accuracy.tolerance = 1e-3;
  const auto coarse = solver::simulate(c);
  c.accuracy.tolerance = 1e-4;
  const auto fine = solver::simulate(c);
  const auto& a = coarse.parts[0].thickness.value;
  const auto& b = fine.parts[0].thickness.value;
  const double margin = 1.1e-3 * b.mean;
  CHECK(a.min == Approx(b.min).margin(margin));
  CHECK(a.mean == Approx(b.mean).margin(margin));
  CHECK(coarse.cell.voltage == Approx(fine.cell.voltage).epsilon(1.1e-3));
  // At a fixed potential the largest is a flux at a rounding of 0.3 mm,
  // recovered from reactions: an order less.
  CHECK(a.max == Approx(b.max).margin(cathode > 0 ? margin : 10 * margin));
}
