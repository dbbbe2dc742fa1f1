#pragma once

#include "viz/palette.hpp"

#include <Eigen/Core>

#include <functional>
#include <memory>
#include <vector>

template <class T>
class vtkSmartPointer;
class vtkActor;
class vtkLookupTable;
class vtkPolyData;
class vtkTubeFilter;

namespace thinspot::viz {

using Loop = std::vector<Eigen::Vector2d>;

/// "#rrggbb" as shares of red, green and blue.
Rgb rgb(const char* hex);

/// From the pale end to the dark one: of the liquid, a greyish blue that stays
/// behind the coating's own ramp.
Rgb liquid_ramp(double share);

/// Colours over a range that begins and ends with round numbers; grey for what
/// is no number.
class ColourScale {
 public:
  /// The least such range that holds both. Where they are one, it has some
  /// room.
  ColourScale(const std::function<Rgb(double)>& ramp, double low, double high);

  vtkLookupTable* table() const;
  int labels() const;  ///< so many round numbers, from end to end

 private:
  std::shared_ptr<vtkLookupTable> table_;
  int labels_ = 2;
};

/// An actor without light and shade, in one colour, so many layers above the
/// section's own plane. The higher lies over the lower.
vtkSmartPointer<vtkActor> flat_actor(vtkPolyData* data, const Rgb& colour,
                                     double height);

/// The room that closed loops enclose; those that run the other way round than
/// the one about them are holes.
vtkSmartPointer<vtkPolyData> filled(const std::vector<Loop>& loops);

/// Tubes about lines, for lines of a width of their own: what the graphics
/// library draws as wide lines has gaps.
vtkSmartPointer<vtkTubeFilter> tubes_about(vtkPolyData* lines);

/// Lines through points.
/// @param closed  the last is joined to the first
vtkSmartPointer<vtkPolyData> lines_through(const std::vector<Loop>& lines,
                                           bool closed);

}  // namespace thinspot::viz
