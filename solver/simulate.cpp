#include "solver/simulate.hpp"

#include "solver/assemble_result.hpp"
#include "solver/expected_work.hpp"
#include "solver/layers.hpp"
#include "solver/solved_case.hpp"
#include "solver/stopwatch.hpp"
#include "solver/uncertainty.hpp"
#include "solver/what_if.hpp"

#include <memory>
#include <utility>

namespace thinspot::solver {

// The way from a case to its result. Each line is a stage, each stage a file;
// no numerics in here.
SolvedCase solved_case(const Case& c, const Progress& progress,
                       const Wanted& wanted) {
  const ExpectedWork work = expected_work(c);
  Unfolding pieces(progress);

  // 1. Step by step: drawing, mesh and response, which depend on the geometry
  //    alone; supply, polarization, currents, the mesh refined until its error
  //    in the figures is within tolerance. Faraday's law gives the thickness,
  //    summed along the surface.
  Schedule schedule =
      run_schedule(c, pieces.next(work.schedule(), work.bands + work.meaning));

  // 2. How far each figure may be off, from what is not known for sure.
  const Bands bands =
      compute_bands(schedule, c, pieces.next(work.bands, work.meaning));

  // 3. Put into the words and tables that the outputs print.
  Result result = assemble_result(schedule, c, bands);

  // 4. What it means at the bench: gas, throwing power and the like.
  appraise(schedule, c, result, pieces.next(work.meaning, 0));

  // 5. Reduced to what answers for other settings without this mesh.
  if (wanted.what_if)
    result.what_if = std::make_shared<const WhatIfAnswer>(what_if(schedule, c));
  return {std::move(schedule), std::move(result)};
}

Result simulate(const Case& c, const Progress& progress, const Wanted& wanted) {
  const Stopwatch watch;
  Result result = solved_case(c, progress, wanted).result;
  result.total_seconds = watch.seconds();
  return result;
}

// One layer is a case; several go the same way each, and then add up.
Result simulate(const std::vector<Case>& layers, const Progress& progress,
                const Wanted& wanted) {
  if (layers.size() == 1) return simulate(layers.front(), progress, wanted);
  const Stopwatch watch;
  Result result = simulate_layers(layers, progress, wanted);
  result.total_seconds = watch.seconds();
  return result;
}

}  // namespace thinspot::solver
