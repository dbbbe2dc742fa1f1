#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "solver/appraisal.hpp"
#include "solver/case.hpp"
#include "solver/forecast.hpp"
#include "solver/interval.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A point of the part's surface. Points follow each loop counter-clockwise
/// from its lowest point.
struct SurfacePoint {
  mesh::Point at = mesh::Point::Zero();      ///< as drawn [m]
  mesh::Point normal = mesh::Point::Zero();  ///< out of the metal
  int loop = 0;
  double arc = 0;              ///< from the loop's lowest point [m]
  int face = 0;                ///< index into PartResult::faces
  bool wetted = true;          ///< false: outside the liquid, never plated
  bool judged = true;          ///< counts for least and target
  double weight = 0;           ///< share of the real area [m2]
  double current_density = 0;  ///< in the last step [A/m2]
  double thickness = 0;        ///< all steps [m]
  /// 95 %, from the inputs and the section's own error; without the mesh's
  /// [m].
  Interval thickness_band;
};

/// A local extremum of thickness.
struct Spot {
  mesh::Point at = mesh::Point::Zero();  ///< [m]
  double arc = 0;                        ///< [m]
  std::string face;
  std::string where;     ///< in words: "middle of the right face"
  double thickness = 0;  ///< averaged over the averaging length [m]
};

struct Bare {
  std::string face;
  double from = 0, to = 0;  ///< arc [m]
  std::string why;
};

struct FaceResult {
  std::string name;
  double area = 0;         ///< real, wetted [m2]
  double current = 0;      ///< in the last step [A]
  Spread current_density;  ///< [A/m2]
  Spread thickness;        ///< [m]
  bool judged = true;      ///< at least partly a significant surface
};

struct PartResult {
  std::string name;
  std::size_t solid = 0;
  double area = 0;               ///< real, wetted [m2]
  double current = 0;            ///< last step [A]
  double mass = 0;               ///< deposited [kg]
  BandedSpread current_density;  ///< min, max: open surface [A/m2]
  BandedSpread thickness;        ///< [m]
  std::vector<FaceResult> faces;
  std::vector<Spot> thin_spots;   ///< thinnest first
  std::vector<Spot> heavy_spots;  ///< heaviest first
  std::vector<Bare> bare;
  std::optional<double> share_in_working_range;  ///< of the area, 0..1
  std::vector<SurfacePoint> surface;
};

struct ProbeResult {
  std::string name;
  mesh::Point at = mesh::Point::Zero();  ///< on the surface [m]
  std::string face;
  double current_density = 0;             ///< [A/m2]
  double thickness = 0;                   ///< [m]
  double current_density_mesh_error = 0;  ///< [A/m2]
  double thickness_mesh_error = 0;        ///< [m]
};

/// What one of several rectifiers shows.
struct RectifierResult {
  std::string name;
  double current = 0;  ///< [A]
  double voltage = 0;  ///< at its terminals [V]
  Interval current_band, voltage_band;
  std::string limited_by;  ///< as in CellResult; "idle" where none of its
                           ///< anodes is at work, "blocked" where others drive
                           ///< them beyond its voltage
  double current_mesh_error = 0;  ///< [A]
  double voltage_mesh_error = 0;  ///< [V]
};

/// What the supply shows. Of several rectifiers: their currents' sum, and the
/// voltage of the one that gives most.
struct CellResult {
  double current = 0;             ///< whole cathode current [A]
  double voltage = 0;             ///< at the supply's terminals [V]
  Interval voltage_band;          ///< [V]
  Interval current_band;          ///< [A]
  std::string limited_by;         ///< "current", "current density", "voltage",
                                  ///< "voltage limit"
  double resistance = 0;          ///< voltage / current [ohm]
  double voltage_mesh_error = 0;  ///< [V]
  double resistance_mesh_error = 0;              ///< [ohm]
  std::vector<RectifierResult> rectifiers = {};  ///< empty: one supply
};

struct StepResult {
  double duration = 0;         ///< [s]
  mesh::Motion motion = {};    ///< of the parts, from how they are drawn
  mesh::Section section = {};  ///< as all stands in this step
  std::optional<Turning> turning = {};
  int angles = 1;  ///< at which a part that turns was computed
  std::vector<std::string> off = {}, lifted = {};  ///< anodes
  /// What one part gets, in the order of Result::parts; the vectors in the
  /// order of its surface points.
  struct OfPart {
    Spread thickness;                 ///< after this step [m]
    Eigen::VectorXd current_density;  ///< in this step [A/m2]
    Eigen::VectorXd grown;            ///< thickness after this step [m]
  };
  std::vector<OfPart> parts = {};
  CellResult cell;
  /// Of the solution, where any step changes it [K], [S/m].
  std::optional<double> temperature = {}, conductivity = {};
  double part_current = 0;          ///< [A]
  double mean_current_density = 0;  ///< over the part [A/m2]
  double max_current_density = 0;   ///< averaged over the averaging length
  bool burning = false;
  std::size_t layer = 0;   ///< index into Result::layers, where there are any
  std::string metal = {};  ///< name of that layer; empty: there are none
};

struct AnodeResult {
  std::string name;
  std::size_t solid = 0;
  double current = 0;    ///< [A], positive into the liquid
  double area = 0;       ///< wetted, of the model [m2]
  double mean = 0;       ///< [A/m2]
  double max = 0;        ///< [A/m2]
  double mass_loss = 0;  ///< soluble anodes [kg]
};

struct WireResult {
  std::string name;
  double area = 0;     ///< wetted and bare [m2]
  double current = 0;  ///< [A]
};

/// A clip, thief or other drawn cathode that is not the part.
struct CathodeResult {
  std::string name;
  std::size_t solid = 0;
  double current = 0;  ///< [A], positive out of the liquid
  double area = 0;     ///< wetted, of the model [m2]
  double mean = 0;     ///< [A/m2]
  double max = 0;      ///< [A/m2]
};

/// Unconnected metal: plates where it faces the anode and dissolves where it
/// faces the cathode, both by the same current.
struct FloatingResult {
  std::string name;
  std::size_t solid = 0;
  double through = 0;     ///< current in at one side and out at the other [A]
  double area = 0;        ///< wetted, of the model [m2]
  double plating = 0;     ///< largest current density into it [A/m2]
  double dissolving = 0;  ///< largest out of it [A/m2]
  double potential = 0;   ///< of its metal against the part's minus lead [V]
};

/// How alike the copies on a rack come out.
struct RackResult {
  std::size_t copies = 0;
  Spread mean_thickness;  ///< of the copies' means: least, mean, largest [m]
  double least = 0, largest = 0;  ///< thickness over all copies [m]
  std::size_t thinnest = 0;       ///< index into Result::parts: of least mean
  std::size_t heaviest = 0;       ///< of largest mean
};

struct TargetResult {
  bool met = false;
  double wanted = 0;                  ///< [m]
  double least = 0;                   ///< over the significant surface [m]
  Interval least_band;                ///< [m]
  double shortfall = 0;               ///< 0 where met [m]
  std::optional<double> time_needed;  ///< [s]; empty: never
  double least_mesh_error = 0;        ///< [m]
  std::optional<double> chance;       ///< of meeting it, 0..1; empty: nothing
                                      ///< is uncertain
};

/// How the part's surface moved with its deposit.
struct GrowthResult {
  std::vector<int> substeps;    ///< in time, of each step
  double substep_error = 0;     ///< of thickness, at most [m]
  double area_drawn = 0;        ///< wetted, of all parts, real [m2]
  double area_grown = 0;        ///< at the end [m2]
  std::vector<Spread> unmoved;  ///< thickness of each part, had its surface
                                ///< stayed as drawn [m]
};

/// What the checks inside the solver found, each relative and below its limit.
struct Evidence {
  double relative_residual = 0;
  double current_imbalance = 0;  ///< of the largest electrode current
};

struct LayerResult;
struct WhatIfAnswer;

struct Result {
  Case used;  ///< with everything that was assumed filled in
  mesh::Section section;
  mesh::Mesh mesh;
  double depth = 0;           ///< of a planar section [m]; 0 axisymmetric
  Eigen::VectorXd potential;  ///< at the nodes, last step [V]
  Eigen::Matrix2Xd current_density;  ///< vector at the nodes [A/m2]
  CellResult cell;                   ///< last step
  std::vector<PartResult> parts;
  std::vector<ProbeResult> probes;
  std::vector<StepResult> steps;
  std::vector<AnodeResult> anodes;
  std::vector<WireResult> wires;
  std::vector<CathodeResult> clips, thieves;
  std::vector<FloatingResult> floating;
  std::optional<RackResult> rack;
  std::optional<GrowthResult> growth;
  double wagner_number = 0;
  double wagner_length = 0;  ///< length it is taken against [m]
  std::optional<TargetResult> target;
  Forecast forecast;
  Appraisal appraisal;
  std::vector<std::string> cautions;
  std::vector<std::string> notes;  ///< on the model, with figures
  Evidence evidence;
  int refinements = 0;           ///< of the mesh, until the tolerance was kept
  bool within_tolerance = true;  ///< every mesh error is
  std::shared_ptr<const WhatIfAnswer> what_if;  ///< where it was wanted; of
                                                ///< layers, each has its own
  double mesh_seconds = 0, solve_seconds = 0, total_seconds = 0;
  /// Where several cases were plated on each other: each by itself, in order.
  std::vector<LayerResult> layers;
};

/// One of several layers.
struct LayerResult {
  std::string name;   ///< "copper", or "copper 2" where there are several of it
  std::string metal;  ///< that is deposited
  Result own;         ///< as if there were no other
  /// Of this layer along each part, at the points of the whole's surface [m].
  std::vector<Eigen::VectorXd> thickness;
};

}  // namespace thinspot::solver
