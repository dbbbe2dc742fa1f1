#pragma once

#include "solver/case.hpp"
#include "solver/free_part.hpp"
#include "solver/model.hpp"

#include <memory>
#include <optional>
#include <vector>

namespace thinspot::solver {

/// What a set-up yields, quickly and without error bars: for the search alone.
struct Yield {
  double least = 0;    ///< of what is judged, per second of the schedule [m/s]
  double mean = 0;     ///< of all parts [m/s]
  double largest = 0;  ///< of their open surface [m/s]
  double metal = 0;    ///< on all cathodes [kg/s]
  double densest = 0;  ///< largest current density of all steps [A/m2]
  double mean_density = 0;  ///< over the parts, of the step with most [A/m2]
  double anode_load = 0;    ///< largest mean of an anode over its limit
  double current = 0;       ///< in the first step [A]
  double voltage = 0;       ///< likewise [V]
};

/// A case with every supply's setting times a factor, in all steps.
Case driven(Case c, double factor);

/// One way in which all stands in the tank, asked for schedules and currents. A
/// single part in a free circle comes from its FreePart, and only the tank
/// around it is meshed; else every position of the part is.
class Layout {
 public:
  /// @param part  of this part, or of one alike elsewhere; nullptr: everything
  ///              is meshed
  /// @throws InputError where it cannot stand so.
  Layout(Case c, FreePart* part);

  /// @param steps   of which, turning on a motor apart, only the shares of the
  ///                whole count
  /// @param factor  of every supply's setting
  /// @throws InputError, NoResultError where the steps cannot be solved.
  Yield yield(const std::vector<Step>& steps, double factor);

  /// Of the last yield's least, what each step left there, its window held:
  /// thickness is linear in the steps' shares of time [m/s]. Empty where
  /// nothing is open.
  const std::vector<double>& parts_of_least() const { return parts_; }

  /// Schedules and currents that it was asked for.
  int asked() const { return asked_; }
  /// Whether its part came from the FreePart, so far.
  bool reuses_part() const { return reused_; }

 private:
  /// All that stands so but for the part's motion.
  struct Around {
    Step like;
    const FreePart::Inside* inside = nullptr;
    HalfResponse outside;
    mesh::Section section;
    std::size_t part = 0;
  };
  struct Standing {
    Step like;
    std::unique_ptr<Model> model;
    std::optional<WorkingPoint> last;
  };
  Model model_of(const Case& used);
  Standing& standing(const Case& used);

  Case case_;
  FreePart* part_;
  bool reused_ = false;
  int asked_ = 0;
  std::vector<double> parts_;
  std::vector<Around> around_;
  std::vector<std::unique_ptr<Standing>> standing_;
  std::optional<mesh::Section> drawn_;
};

}  // namespace thinspot::solver
