#pragma once

#include "solver/result.hpp"
#include "viz/chart_scales.hpp"
#include "viz/coating.hpp"
#include "viz/svg.hpp"

#include <functional>
#include <string>
#include <vector>

namespace thinspot::viz {

/// Value of a surface point, in the unit of the panel's scale.
using PointValue = std::function<double(const solver::SurfacePoint&)>;

/// The unit of scales of thickness. @param metres  [m]
inline double micrometres(double metres) { return metres * 1e6; }

/// Frame, rules and numbers of the upright axis, its name above.
void draw_upright_axis(Svg& svg, const UprightScale& scale,
                       const std::string& name, int count);

/// The curve over the unrolled surface with the room under it filled; what is
/// not judged dashed and hatched, what is not wetted left empty.
/// @param pieces  as unrolled_stretches() cuts them.
void draw_curve(Svg& svg, const solver::PartResult& part,
                const std::vector<Stretch>& pieces, const UnrolledScale& along,
                const UprightScale& scale, const PointValue& value,
                const std::string& fill, const std::string& stroke);

/// The room between two curves, the upper one drawn as a line; what is not
/// judged paler and dashed.
void draw_between(Svg& svg, const solver::PartResult& part,
                  const std::vector<Stretch>& pieces,
                  const UnrolledScale& along, const UprightScale& scale,
                  const PointValue& lower, const PointValue& upper,
                  const std::string& fill, const std::string& stroke);

/// The room between two curves, without a line, through which what is behind
/// shows.
void draw_strip(Svg& svg, const solver::PartResult& part,
                const std::vector<Stretch>& pieces, const UnrolledScale& along,
                const UprightScale& scale, const PointValue& lower,
                const PointValue& upper, const std::string& fill);

/// The strip of the 95 % bands of the thickness.
/// @param scale  in micrometres
void draw_thickness_band(Svg& svg, const solver::PartResult& part,
                         const std::vector<Stretch>& pieces,
                         const UnrolledScale& along, const UprightScale& scale,
                         const std::string& fill);

/// The sign of such a strip in a legend.
void strip_swatch(Svg& svg, Point centre, const std::string& fill);

/// The sign of the thickness's curve with the coating under it.
void coating_swatch(Svg& svg, Point centre);

/// The curve as a line alone, clipped to the panel.
void draw_line(Svg& svg, const solver::PartResult& part,
               const std::vector<Stretch>& pieces, const UnrolledScale& along,
               const UprightScale& scale, const PointValue& value, Paint paint);

/// The curve of another copy behind it: a thin line.
void draw_pale_curve(Svg& svg, const solver::PartResult& part,
                     const std::vector<Stretch>& pieces,
                     const UnrolledScale& along, const UprightScale& scale,
                     const PointValue& value);

/// Dotted lines where one face ends and the next begins.
void draw_separators(Svg& svg, const std::vector<FaceRun>& runs, double top,
                     double bottom);

/// A frame around each loop's piece of a panel.
void draw_box(Svg& svg, const UnrolledScale& along, const TextBox& box);

/// Words beside the panel at a height of it.
struct SideNote {
  double value = 0;                ///< in the unit of the scale
  std::vector<std::string> lines;  ///< one or two
  std::string colour;
  bool bold = false;
  solver::Interval band = {};  ///< low == high: no bar
};

/// Notes in the column right of the panel, moved apart, each with a thin line
/// to its height and a bar for its band.
void draw_side_notes(Svg& svg, const UprightScale& scale,
                     const std::vector<SideNote>& notes, double right);

/// Numbers and names along the unrolled surface below the panels.
/// @returns where they end.
double draw_along_axis(Svg& svg, const solver::PartResult& part,
                       const UnrolledScale& along,
                       const std::vector<FaceRun>& runs, double top,
                       double right);

}  // namespace thinspot::viz
