#pragma once

#include "solver/kept_result.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A place where the second result's coating is other than the first one's, all
/// averaged over kComparedOver along the surface: at a sharp corner a point has
/// no thickness of its own.
struct Differing {
  std::size_t point = 0;              ///< of part a's surface
  std::string face = {}, where = {};  ///< in words
  double a = 0, b = 0;                ///< thickness [m]
  std::optional<bool> beyond =
      {};  ///< their bands do not meet; empty: no bands
  double by() const { return b - a; }
};
inline constexpr double kComparedOver = 0.1e-3;  ///< [m]

/// Shares of the thickness that files and points resolve: six digits on either
/// side, and more where points of b had to be met between. The latter is what
/// shipped cases differ by from themselves on a mesh ten times finer, 0.3 %,
/// rounded up.
inline constexpr double kByDigits = 2e-5, kByPoints = 5e-3;

/// Two parts of one shape, point by point of the first.
struct PartComparison {
  std::size_t a = 0, b = 0;              ///< indices into both Result::parts
  std::vector<char> both = {};           ///< plated in both: what is compared
  Eigen::VectorXd thickness = {};        ///< of b at a's points [m]
  Eigen::VectorXd current_density = {};  ///< likewise, last step [A/m2]
  std::vector<Interval> band =
      {};                       ///< of b's thickness there [m]; empty: unknown
  double shift = 0;             ///< of arcs on the first loop [m]
  double resolved = kByDigits;  ///< share below which nothing differs
  std::optional<Differing> gain = {}, loss = {};  ///< most, on what counts
  double area = 0;                                ///< compared [m2]
  /// Shares of it that are so by more than is resolved, 0..1.
  double thicker = 0, thinner = 0;
  std::optional<double> beyond = {};  ///< share of it with bands apart
};

/// One number that both results have.
struct Figure {
  enum class Of {
    thinnest_judged,  ///< what the target looks at [m]
    thinnest,         ///< over all copies [m]
    mean,             ///< of all copies [m]
    heaviest,         ///< [m]
    evenness,         ///< heaviest over thinnest
    mass,             ///< on all parts [kg]
    voltage,          ///< last step [V]
    current,          ///< last step [A]
    duration,         ///< all steps [s]
    time_needed,      ///< until the target is met [s]
    steps
  };
  Of of = Of::mean;
  std::optional<double> a, b;  ///< empty: never, or no such number
  std::optional<Interval> band_a = {}, band_b = {};
  double mesh_error = 0;  ///< that both together may have

  enum class Verdict {
    alike,   ///< no difference, or none that the meshes could not make
    within,  ///< bands meet: what is not known might make as much
    beyond,  ///< bands do not meet
    plain    ///< there are no bands to say
  };
  Verdict verdict() const;
};

struct Comparison {
  std::vector<PartComparison> parts;
  std::vector<Figure> figures;
  std::size_t most = 0;  ///< index into parts: where thickness differs most
};

/// The second result against the first: parts by their names or, where these
/// differ, in their order; points by their place along the outline; what lies
/// between points of the second by straight lines.
/// @throws InputError with the second's name where they cannot be compared.
Comparison compared(const KeptResult& a, const KeptResult& b);

/// Whether two bands have nothing in common.
bool apart(const Interval& a, const Interval& b);

}  // namespace thinspot::solver
