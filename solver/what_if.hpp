#pragma once

#include "solver/case.hpp"
#include "solver/circuit.hpp"
#include "solver/coat.hpp"
#include "solver/supply.hpp"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

struct Schedule;

/// Turned positions that may be asked for, evenly spread over a full turn from
/// where a part stands in its step.
inline constexpr int kTurnPositions = 24;

/// The knobs of a what-if, as factors of what the case says. Together they are
/// bounded once more: conductivity times polarization of no cathode may fall
/// below kLeastResolved of what the mesh was made for, as currents then crowd
/// more at edges than it resolves.
struct WhatIfRange {
  double low = 1, high = 1;
};
inline constexpr WhatIfRange kCurrentRange{0.25, 2.5};
inline constexpr WhatIfRange kConductivityRange{0.5, 2};
inline constexpr WhatIfRange kPolarizationRange{0.5, 2};
inline constexpr double kLeastResolved = 0.5;

/// A case with its knobs turned: currents (or voltages, where they are set),
/// conductivity, and the overpotential of all cathodes at every current
/// density.
Case turned_by(Case c, double current, double conductivity,
               double polarization);

/// What a part's current densities are in terms of a geometry's r basis
/// functions, at the nodes of its coat.
struct WhatIfOnPart {
  Eigen::MatrixXd potential;  ///< of the liquid, nodes x r [V]
  Eigen::VectorXd wetted;     ///< 1, or 0 where it is dry in this geometry
  /// Where the part holds its potential: current density at conductivity 1 at
  /// each turn, nodes x r, in place of the law's.
  std::vector<Eigen::MatrixXd> held;
};

struct WhatIfElectrode {
  std::size_t solid = 0;
  int part = -1;
  double measure = 0;      ///< [m planar, m2 axisymmetric]
  Eigen::MatrixXd mass;    ///< of the basis along it, r x r
  Eigen::VectorXd weight;  ///< integral of each function along it
  Eigen::MatrixXd gauss;   ///< the functions at its Gauss points, points x r;
                           ///< none where its law is straight
  Eigen::VectorXd size;    ///< of the Gauss points
};

/// One way in which all stands, but for turns.
struct WhatIfGeometry {
  Eigen::Index rows = 0;                   ///< nodes that were reduced
  Eigen::Index held = 0;                   ///< as ReducedResponse
  std::vector<Eigen::MatrixXd> stiffness;  ///< likewise, of each turn
  std::vector<WhatIfElectrode> electrodes;
  std::vector<WhatIfOnPart> parts;
  double error = 0;  ///< as ReducedResponse
  int samples = 0;
};

struct WhatIfStep {
  Case used;
  std::size_t geometry = 0;
  std::vector<ElectrodeLaw> laws;  ///< of each electrode, as stated
  /// Of each electrode: resistance at the case's own working point [ohm m2],
  /// and overpotential there without offset, where its law is curved [V].
  std::vector<double> resistance, over;
  struct Turn {
    std::size_t turn = 0;  ///< index into WhatIfGeometry::stiffness
    double share = 1;      ///< of the step's time
  };
  std::vector<Turn> turns;
  /// Where a part turns in the step, and all its angles are there: the turns at
  /// them, evenly spread from where it stands. How long it is at each follows
  /// from the step's duration (solver/turning).
  std::vector<std::size_t> angles;
  /// Of kTurnPositions from where the part stands; none where it cannot turn.
  std::vector<std::size_t> positions;
};

/// Places along a part at which its coating is told, at most kMostPlaces.
inline constexpr std::size_t kMostPlaces = 400;
struct WhatIfPlace {
  Extreme window;  ///< of the coat's surface, over which it is averaged; its
                   ///< arc lies within the loop
  mesh::Point at = mesh::Point::Zero();
  std::size_t loop = 0;  ///< of the outline
  double of_length = 0;  ///< of that loop [m]
  int face = 0;          ///< index into WhatIfPart::faces
  bool open = false, judged = false;
  Eigen::VectorXd weights;  ///< on the coat's nodes
};
struct WhatIfPart {
  std::string name;
  std::vector<std::string> faces;
  double area = 0;             ///< wetted, real [m2]
  Eigen::VectorXd node_areas;  ///< that stand for the coat's nodes [m2]
  std::vector<WhatIfPlace> places;
};

/// A number of the case that a knob turns, before it is turned.
struct WhatIfKey {
  std::string key;  ///< as for_each_quantity has it
  double value = 0;
};

/// Everything that answers for other currents, times, conductivities,
/// polarizations and turns of one case without its mesh.
struct WhatIf {
  SectionScale scale;
  std::vector<WhatIfGeometry> geometries;
  std::vector<WhatIfStep> steps;  ///< of the case
  std::vector<WhatIfPart> parts;
  bool by_density = false;  ///< efficiency goes by current density
  std::vector<WhatIfKey> current, conductivity, polarization;
};

/// Where there is none, why.
struct WhatIfAnswer {
  std::optional<WhatIf> model;
  std::string why_not;
};
WhatIfAnswer what_if(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
