#pragma once

#include "solver/plan_limits.hpp"
#include "solver/progress.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// One local search.
struct Job {
  std::size_t structure = 0, schedule = 0;
  std::vector<double> start;  ///< shares of the variables' ranges
};

/// What came of it.
struct Answer {
  Trial trial;
  std::vector<double> at;  ///< of the variables [SI]
  int layouts = 0, candidates = 0;
};

/// Does jobs side by side, each in a process of its own that stays for the next
/// one: meshes and geometry kernels of third parties know one model a process.
/// Answers do not depend on how many there are.
class Jobs {
 public:
  using Work = std::function<Answer(const Job&)>;

  explicit Jobs(Work work);
  ~Jobs();

  /// @returns one answer for each job, in their order
  /// @throws NoResultError where a process is lost.
  std::vector<Answer> run(const std::vector<Job>& jobs,
                          const Progress& progress);

 private:
  struct Workers;
  std::unique_ptr<Workers> workers_;
};

}  // namespace thinspot::solver
