#pragma once

#include "viz/sweep_axis.hpp"
#include "viz/sweep_cells.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::viz {

/// The one scale of colours of all panels, and how many cells they have.
struct CellScale {
  AxisScale share;                   ///< 0 .. 1 of ramp()
  bool any = false;                  ///< a cell has a result
  bool alike = false;                ///< all of them have the same
  std::size_t most = 0;              ///< cells a side
  std::size_t across = 1, down = 1;  ///< points of a cell
  bool few = false;  ///< few enough for a pointer to be told of each

  /// "#rrggbb" of a result.
  std::string colour(double value) const;
};

/// @param beside  panels beside each other: more of them have fewer cells
CellScale cell_scale(const std::vector<SweepMap>& panels, std::size_t beside);

struct MapLook {
  const SweptFigure& figure;
  const CellScale& scale;
  std::optional<std::size_t> best;  ///< index of the point, if in this panel
  bool numbers = false;             ///< in the cells, where they fit
};

/// What the panels came to show, for the legend.
struct MapSeen {
  bool hatched = false;    ///< a cell without a result
  bool scattered = false;  ///< too many borders to draw
  bool border = false;     ///< of those that meet the target
  bool framed = false;     ///< the best cell has a frame, else a star
};

/// Whether all numbers find room in their cells.
bool numbers_fit(const std::vector<double>& values, const SweepAxis& x,
                 const SweepAxis& y);

void draw_map_panel(Svg& svg, const SweepMap& panel, const MapLook& look,
                    const SweepAxis& x, const SweepAxis& y, const TextBox& box,
                    MapSeen& seen);

/// The fill of a cell without a result.
std::string no_result_fill(Svg& svg);

/// A frame about a cell of its own, or a star on a disc.
void draw_best_frame(Svg& svg, const TextBox& cell);
void draw_best_star(Svg& svg, Point centre);

/// A line with ticks on one side, in pieces.
class BorderLine {
 public:
  /// @param beyond  the way that the ticks point
  void add(Point from, Point to, Point beyond);
  void draw(Svg& svg) const;

 private:
  PathText line_, ticks_;
};

}  // namespace thinspot::viz
