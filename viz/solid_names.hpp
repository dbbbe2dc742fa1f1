#pragma once

#include "mesh/section.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// How the names are set.
struct NameManner {
  int most_rows = 10;
  /// Plus and minus at what a lead goes to: before its name, and where the
  /// name's line ends.
  bool poles = false;
  bool wired = false;  ///< wires hold the parts, and have poles of their own
};

/// The names of the solids in rows above the tank, out of the crowd, each
/// with a thin line to its solid. Where that line would cross another solid
/// or the rows are full, and for the copies on a rack, the name stands in the
/// liquid beside it.
class SolidNames {
 public:
  /// @param left, right  how far the names may reach on the page.
  SolidNames(const mesh::Section& section, const Frame& tank, double left,
             double right, const NameManner& manner = {});

  double height() const;  ///< that the rows need
  /// How many have found a place in the rows.
  std::size_t in_rows() const { return names_.size(); }
  /// @param tank  the frame at its final height on the page.
  void draw(Svg& svg, const Frame& tank) const;
  /// The room of the lines and what stands at their ends.
  std::vector<TextBox> lines(const Frame& tank) const;
  /// Keeps labels off the lines.
  void block_lines(LabelPlacer& placer, const Frame& tank) const;
  /// Those that stand in the liquid, in the first frame that has room.
  /// @returns how many found none.
  std::size_t draw_inside(Svg& svg, const mesh::Section& section,
                          const std::vector<Frame>& frames,
                          LabelPlacer& placer) const;

 private:
  struct Name {
    std::string text;
    std::size_t solid = 0;
    char pole = ' ';            ///< '+', '-', or none
    std::vector<Point> ends;    ///< where the line may end [m]
    Point end = Point::Zero();  ///< and does
    double centre = 0;          ///< of the text, on the page
    int row = 0;                ///< 0 just above the tank
    double line_x = 0;          ///< where the line leaves the text
  };
  enum class Manner { centred, stairs };
  std::vector<Name> placed(std::vector<Name> names, const Frame& tank,
                           Manner manner) const;
  bool place(Name& name, const Frame& tank, Manner manner,
             std::vector<TextBox>& taken) const;

  double left_, right_;
  int most_rows_;
  struct InsideName {
    std::string text;
    std::size_t solid = 0;
    char pole = ' ';
  };
  std::vector<Name> names_;
  std::vector<InsideName> inside_;
  int rows_ = 0;
};

/// The sign in a ring, as at a supply's terminals.
void draw_pole(Svg& svg, Point centre, char pole);

/// "sheet (anode)"; the role is left out where the name already says it.
std::string name_with_role(const mesh::Solid& solid);

}  // namespace thinspot::viz
