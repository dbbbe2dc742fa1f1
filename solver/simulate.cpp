#include "solver/simulate.hpp"

#include "solver/assemble_result.hpp"
#include "solver/certify.hpp"
#include "solver/model.hpp"
#include "solver/stopwatch.hpp"
#include "solver/uncertainty.hpp"

#include <utility>

namespace thinspot::solver {

// The way from a case to its result. Each line is a stage, each stage a file;
// no numerics in here.
Result simulate(const Case& c) {
  const Stopwatch watch;

  // 1. Drawing, mesh and response: what depends on the geometry alone.
  Model model = build_model(c);

  // 2. Supply, polarization, currents; Faraday's law gives the thickness. The
  //    mesh is refined until its error in the figures is within tolerance.
  const Certified solved = certify(std::move(model), c);

  // 3. How far each figure may be off, from what is not known for sure.
  const Bands bands = compute_bands(solved, c);

  // 4. Put into the words and tables that the outputs print.
  Result result = assemble_result(solved, c, bands);
  result.total_seconds = watch.seconds();
  return result;
}

}  // namespace thinspot::solver
