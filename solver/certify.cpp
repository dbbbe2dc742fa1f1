#include "solver/certify.hpp"

#include "mesh/refine.hpp"
#include "solver/refinement.hpp"

namespace thinspot::solver {

Certified certify(Model model, const Case& c,
                  const std::vector<Watched>& watched) {
  Certified result{std::move(model), {}, {}, false, 0};
  Eigen::VectorXd last_bar;
  for (;;) {
    result.outcome = evaluate(result.model, c);
    result.outcome.watched = watched;
    const Estimate estimate = estimate_errors(result.model, c, result.outcome);
    result.errors = estimate.errors;
    result.within = within(estimate);
    if (result.within || result.rounds == kMostRounds ||
        result.model.mesh.nodes.cols() > kMostNodes)
      return result;
    const std::vector<int> marked =
        triangles_to_refine(result.model, estimate, last_bar);
    last_bar = estimate.bar;
    if (marked.empty()) return result;
    const double mesh_seconds = result.model.mesh_seconds;
    const double response_seconds = result.model.response_seconds;
    mesh::Mesh finer =
        mesh::refined(result.model.mesh, result.model.section, marked);
    result.model =
        build_model(c, std::move(result.model.section), std::move(finer));
    result.model.mesh_seconds += mesh_seconds;
    result.model.response_seconds += response_seconds;
    ++result.rounds;
  }
}

}  // namespace thinspot::solver
