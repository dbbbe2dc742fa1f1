#pragma once

#include "mesh/curve.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A trapezoidal test cell of 267 ml, or one of two cathodes on either side of
/// an anode that current passes on both sides (Haring and Blum), filled with
/// the case's solution.
struct TestCell {
  double current = 1;       ///< of the whole cell [A]
  double duration = 600;    ///< [s]
  double depth = 0.0482;    ///< of the trapezoidal cell's liquid [m]
  double near_gap = 0.025;  ///< from the anode to one cathode [m]
  double far_gap = 0.125;   ///< and to the other [m]
  double area = 0.01;       ///< of each of both cathodes [m2]
  bool operator==(const TestCell&) const = default;
};

/// Something that was read at the bench.
struct Reading {
  enum class In {
    tank,         ///< the case's own set-up
    panel,        ///< a trapezoidal test cell
    two_cathodes  ///< their masses, one over the other
  };
  enum class Of { voltage, current, mass, thickness, ratio };
  /// Of a thickness.
  enum class Where {
    mean,      ///< over a part; the only one that is not of a thickness
    point,     ///< of the part's surface, nearest to `point`
    probe,     ///< one of the case by its name, `at`
    thinnest,  ///< spot of a part that counts
    heaviest,
    along  ///< the panel, `distance` from the end that is near the anode
  };

  In in = In::tank;
  Of of = Of::voltage;
  double value = 0;       ///< [V], [A], [kg], [m]; near mass over far
  double plus_minus = 0;  ///< half width of its 95 % interval, above 0
  std::string method;     ///< as written, or what was taken: "multimeter"
  /// Why plus_minus is what it is; empty: as read.
  std::string plus_minus_source;
  std::string at;  ///< as written: "0.2 A", "step 2", "left face"; may be empty
  Where where = Where::mean;
  mesh::Point point = mesh::Point::Zero();  ///< [m]
  double distance = 0;                      ///< [m]
  std::optional<std::size_t> copy;          ///< on a rack, from 0; empty: all
  std::optional<std::size_t> step;          ///< from 0; empty: the last
  std::optional<double> at_current;  ///< of a voltage: that the supply gave [A]
  TestCell cell = {};                ///< unless in the tank
  /// Of the tank: what was otherwise than in the case, as "key=value".
  std::vector<std::string> with = {};
  std::string note;
  int line = 0;  ///< of the file
};

}  // namespace thinspot::solver
