#pragma once

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace thinspot::viz {

/// The liquid in the last step, as section.vtu holds it.
struct LiquidData {
  Eigen::Matrix2Xd nodes;                           ///< [mm]
  Eigen::Matrix<int, 6, Eigen::Dynamic> triangles;  ///< as mesh::Mesh has them
  Eigen::VectorXd potential;                        ///< at the nodes [V]
  Eigen::VectorXd current_density;                  ///< its amount [A/dm2]
};

/// All parts' surfaces after one step, as surface.vtp holds them.
struct SurfaceData {
  Eigen::Matrix2Xd points;              ///< [mm]
  Eigen::Matrix2Xd normals;             ///< out of the metal
  std::vector<std::vector<int>> walks;  ///< along each loop, closed: ends
                                        ///< where it begins
  Eigen::VectorXd thickness;            ///< [um]
  Eigen::VectorXd current_density;      ///< [A/dm2]
  Eigen::VectorXd arc;                  ///< [mm]
  Eigen::VectorXi face;                 ///< index into face_names
  Eigen::VectorXi wetted;               ///< 1 or 0
  std::vector<std::string> face_names;
};

/// What is after one of the steps.
struct StepData {
  double minutes = 0;  ///< from the start
  SurfaceData surface;
};

/// All that the window shows, checked: every index is in its range and every
/// number finite.
struct WindowData {
  std::optional<LiquidData> liquid;
  std::vector<StepData> steps;  ///< at least one
};

}  // namespace thinspot::viz
