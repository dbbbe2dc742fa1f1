#pragma once

#include "mesh/curve.hpp"
#include "mesh/outline.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::mesh {

/// What a file holds, before it is known which piece joins which. All lengths
/// are in the file's own unit.
struct Drawing {
  /// Loose pieces in any order and direction; each set closes by itself.
  std::vector<std::vector<Curve>> sets;
  std::vector<std::string> notes;
  std::optional<double> metres_per_unit;  ///< what the file says

  /// Puts a piece into the last set: arcs of more than half a circle in two,
  /// as the rest of the program wants them.
  /// @throws InputError beyond kMostPieces
  void add(const Curve& piece);
  void add(const std::vector<Curve>& pieces);

 private:
  int pieces_ = 0;
};

/// @param text  whole content of the file
/// @throws InputError with key "file", as all of these
Drawing read_csv_drawing(std::string_view text);
Drawing read_dxf_drawing(std::string_view text);  ///< in a child process
Drawing parsed_dxf(std::string_view text);        ///< the same in this one
/// A STEP file, whose own unit is turned into millimetres, or a BREP, which
/// names none.
/// @param text  whole content of the file
Drawing read_brep_drawing(const std::filesystem::path& file,
                          const std::string& text, bool step);

/// Text of a file as valid UTF-8 without control characters: bytes that are
/// none are taken for Latin-1. At most 60 characters.
std::string clean_name(std::string_view raw);

/// Refuses a STEP or BREP that is none, or cut short, before OpenCASCADE runs
/// round in it.
/// @param text  whole content of the file
/// @throws InputError with key "file"
void check_whole(std::string_view text, bool step);

/// The drawing's pieces joined to closed loops, in metres.
/// @throws InputError with key "file": they do not close, cross or touch
DrawnOutline outline_of(const Drawing& drawing, const OutlineOptions& options);

}  // namespace thinspot::mesh
