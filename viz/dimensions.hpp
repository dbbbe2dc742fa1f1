#pragma once

#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/scene.hpp"

#include <string>
#include <utility>
#include <vector>

namespace thinspot::viz {

/// "35 mm". @param metres  [m]
std::string millimetres(double metres);

/// A length to be read off a drawing, between two points of the section.
struct Dimension {
  Point from = Point::Zero(), to = Point::Zero();  ///< [m]
  std::string text;                                ///< "35 mm"
};

/// The shortest way between part and each anode; on a rack of the copy nearest
/// to it.
/// @param roles  of the solids asked about, in place of anodes alone
std::vector<Dimension> free_distances(const Scene& scene,
                                      const std::vector<mesh::Role>& roles = {
                                          mesh::Role::anode});

/// Dimensions of one picture, so that the next ones keep off them: no line runs
/// over a text or close along another line.
struct DrawnDimensions {
  std::vector<TextBox> texts;
  std::vector<std::pair<Point, Point>> lines;  ///< on the page
};

/// How dimensions are set on a picture.
struct DimensionManner {
  double size = 11;                     ///< of the letters
  bool near = false;                    ///< text beside its line or not at all
  std::vector<TextBox> kept_free = {};  ///< what no line may run over
  /// What has been drawn so far; what is drawn is added.
  DrawnDimensions* drawn = nullptr;
};

/// Between the arrow tips, its text beside the line or at its end.
/// @returns false where it found no room: then nothing is drawn.
bool draw_dimension(Svg& svg, const mesh::Section& section,
                    const Dimension& dimension, const Frame& frame,
                    LabelPlacer& placer, const DimensionManner& manner = {});

/// Width and height of the shown part's box, outside of it.
void draw_size(Svg& svg, const Scene& scene, const Frame& frame,
               LabelPlacer& placer, const DimensionManner& manner = {});

/// How far below the liquid's surface the part begins; of one that stands out
/// of it, how deep it is dipped. Of a rack the highest copy.
void draw_depth_of_part(Svg& svg, const Scene& scene, const Frame& frame,
                        LabelPlacer& placer,
                        const DimensionManner& manner = {});

/// How high the liquid stands above the floor.
void draw_depth_of_liquid(Svg& svg, const Scene& scene, const Frame& frame,
                          LabelPlacer& placer,
                          const DimensionManner& manner = {});

}  // namespace thinspot::viz
