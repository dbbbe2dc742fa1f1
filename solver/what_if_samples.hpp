#pragma once

#include "solver/reduced_response.hpp"
#include "solver/schedule.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// Phases of one geometry.
struct Group {
  std::vector<std::size_t> phases;
  const Model* model = nullptr;  ///< of one of them, the finest
  int turnable = -1;
  std::vector<bool> held;        ///< which electrodes are
  std::vector<double> angles;    ///< of its turns [rad]; one where none turns
  std::vector<Response> turned;  ///< one a turn
};

/// The phases of a schedule by what one reduced response can answer for: all
/// stands alike but for turns, and the same electrodes hold their potential.
/// Angles and responses are left to be filled in.
std::vector<Group> groups_of(const Schedule& schedule);

/// The knobs' k-th setting, and the working point there: what a basis of the
/// group is made of.
class Sampler {
 public:
  Sampler(const Schedule& schedule, const Group& group);

  /// @returns nothing where no current flows at that setting, or its currents
  ///          crowd more than the mesh resolves.
  std::optional<Sample> operator()(int k) const;

 private:
  WorkingPoint settled(std::size_t turn, const Case& c, const SolvedStep& step,
                       int k) const;
  bool is_resolved(const Sample& sample, const SolvedStep& step) const;

  const Schedule& schedule_;
  const Group& group_;
  bool curved_;
};

}  // namespace thinspot::solver
