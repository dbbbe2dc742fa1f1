#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::mesh {

/// What is of use in a DXF, checked and put in order before the library that
/// interprets it sees it: it takes counts in the file on trust, and would draw
/// the entities of block definitions.
struct DxfGroups {
  std::string text;  ///< a DXF that holds nothing but the entities below
  std::vector<std::string> notes;
  std::optional<int> insunits;  ///< $INSUNITS, where it stands in the header
};

/// Keeps LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE (not meshes) and
/// SPLINE of the model space, with their layers and numbers alone; counts the
/// rest in the notes.
/// @throws InputError with key "file": not a DXF, cut short, a number that is
///         none
DxfGroups read_dxf_groups(std::string_view file);

}  // namespace thinspot::mesh
