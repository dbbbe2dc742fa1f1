#pragma once

#include "solver/fit_parameters.hpp"
#include "solver/fit_runs.hpp"
#include "solver/progress.hpp"
#include "solver/schedule.hpp"

#include <Eigen/Core>

#include <map>
#include <string>
#include <vector>

namespace thinspot::solver {

/// What each reading would be, by the parameters: all cases meshed once, then
/// answered by their responses.
class FitModel {
 public:
  /// @param c  that the fit is of: what differs from it in an experiment's case
  ///           was said of that experiment, and stays
  /// @throws InputError as fit_runs has it.
  FitModel(const Case& c, const std::vector<Experiment>& experiments,
           std::vector<FitParameter> parameters);

  /// Meshes every case for these parameters.
  /// @throws CaseError where one of them cannot be solved.
  void mesh(const Eigen::VectorXd& x, const Progress& progress = {});

  /// @pre meshed
  /// @throws CaseError where no current flows with these.
  Eigen::VectorXd values(const Eigen::VectorXd& x) const;

  /// Derivatives, a row a reading, a column a parameter: by duals; by
  /// differences what has none (the current at a set voltage, the ratio of two
  /// cathodes, a law at a bend).
  Eigen::MatrixXd slopes(const Eigen::VectorXd& x) const;

  const std::vector<FitParameter>& parameters() const { return parameters_; }
  const std::vector<Reading>& readings() const { return readings_; }
  /// Takes parameters out of the fit, which stay as they start.
  /// @param kept  of each
  void keep(const std::vector<bool>& kept);

  /// A case with the parameters' values.
  Case with(const Case& c, const Eigen::VectorXd& x) const;

 private:
  /// A case, its schedule and what a moved surface does to each figure.
  struct Solved {
    FitRun run;
    Schedule schedule;
    std::vector<double> share;
  };
  struct TwoCathodes {
    Case content;
    std::size_t reading;
  };
  /// What was said of an experiment alone is not that of the fit.
  bool as_stated(const std::string& key, const Quantity& q) const;
  Schedule answer(const Solved& solved, const Eigen::VectorXd& x) const;
  void add_values(const Solved& solved, const Schedule& s,
                  Eigen::VectorXd& values) const;
  void add_slopes(const Solved& solved, const Eigen::VectorXd& x,
                  Eigen::MatrixXd& slopes) const;
  double factor(const Solved& solved, const Schedule& s, std::size_t f) const;

  std::map<std::string, Quantity> stated_;
  std::vector<FitParameter> parameters_;
  std::vector<Reading> readings_;
  std::vector<Solved> solved_;
  std::vector<TwoCathodes> cathodes_;
};

}  // namespace thinspot::solver
