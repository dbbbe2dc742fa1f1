#include "solver/certify.hpp"

#include "solver/refinement.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace thinspot::solver {

namespace {

/// Rounds that most meshes need after the first estimate.
constexpr double kFirstGuess = 1;
/// What is kept for one that was not expected.
constexpr double kReserve = 0.2;
/// Of a round, what solving and its estimate take; the rest is the next mesh.
constexpr double kSolved = 0.6;

}  // namespace

Certified certify(Model model, const Case& c,
                  const std::vector<Watched>& watched,
                  const WorkingPoint* before, const Progress& progress) {
  Certified result{std::move(model), {}, {}, false, 0};
  Eigen::VectorXd last_bar;
  bool last = false;
  Unfolding rounds(progress);
  double to_come = kFirstGuess;
  for (;;) {
    const Progress round = rounds.next(1, to_come);
    round.at(0);
    result.outcome = evaluate(result.model, c, {before});
    before = &result.outcome.point;
    result.outcome.watched = watched;
    const Estimate estimate = estimate_errors(result.model, c, result.outcome);
    result.errors = estimate.errors;
    result.within = within(estimate);
    if (result.within || last || result.rounds == kMostRounds ||
        result.model.mesh.nodes.cols() > kMostNodes)
      break;
    std::optional<Refined> finer =
        refined_as_far(result.model, estimate,
                       triangles_to_refine(result.model, estimate, last_bar));
    last_bar = estimate.bar;
    if (!finer) break;
    last = finer->last;
    to_come = std::max(kReserve, rounds_to_come(estimate) - 1);
    round.at(kSolved);
    const double mesh_seconds = result.model.mesh_seconds;
    const double response_seconds = result.model.response_seconds;
    result.model =
        build_model(c, std::move(result.model.section), std::move(finer->mesh));
    result.model.mesh_seconds += mesh_seconds;
    result.model.response_seconds += response_seconds;
    ++result.rounds;
  }
  progress.at(1);
  return result;
}

}  // namespace thinspot::solver
