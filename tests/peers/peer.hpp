#pragma once

#include "tests/peers/liquid_border.hpp"
#include "tests/peers/spacing.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::tests {

/// A cell as it is put to the other program: shapes, one conductivity, and the
/// resistance of each electrode's law. Borders carry the label "their index
/// + 1".
struct PeerProblem {
  bool axisymmetric = false;
  double conductivity = 0;  ///< [S/m]
  std::vector<Border> borders;
  /// [ohm m2], in the order of Border::electrode; 0: potential held
  std::vector<double> resistance;
  struct Window {
    int electrode = 0;
    std::vector<int> labels;
  };
  std::vector<Window> windows;
};

/// What it answers to one volt behind each electrode's law in turn, the others
/// at zero; out of the liquid counting positive.
struct PeerAnswer {
  Eigen::MatrixXd current;  ///< of electrode j for electrode k, per metre of
                            ///< depth or whole [S/m or S]
  Eigen::MatrixXd windows;  ///< mean by arc of current density [A/m2 per V]
  Eigen::VectorXd measure;  ///< of each electrode [m planar, m2 axisymmetric]
  double unknowns = 0;
};

/// The script that solves it with FreeFem++, a general finite-element
/// language, on a mesh of its own with straight edges, lengths in mm, and
/// writes a file "answer".
std::string peer_script(const PeerProblem& problem, const Fineness& fineness);

/// True where FreeFem++ is installed.
bool peer_is_here();

/// Runs it; fails the test with its last lines where it does not answer.
PeerAnswer ask_peer(const PeerProblem& problem, const Fineness& fineness);

}  // namespace thinspot::tests
