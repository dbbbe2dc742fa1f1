#pragma once

#include "mesh/curve.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::mesh {

/// An outline as a file holds it.
struct DrawnOutline {
  Outline outline;  ///< [m], where the file has it; outer loops
                    ///< counter-clockwise, holes clockwise. Pieces without a
                    ///< name have the face "outline" or, of a hole, "hole"
  std::vector<std::string> notes;  ///< what was left out or guessed, one line
                                   ///< each: "left out: 2 TEXT, 1 HATCH"
  bool unit_assumed = false;  ///< neither file nor options name one: mm taken
};

struct OutlineOptions {
  std::optional<double> metres_per_unit;  ///< goes before what the file says
  double scale = 1;                       ///< after the unit
};

/// Most straight and circular pieces that an outline may have.
constexpr int kMostPieces = 5000;

/// Largest file that is read [bytes].
constexpr std::uintmax_t kLargestFile = 20'000'000;

/// Reads an outline by the file's extension: .csv, .dxf, .step, .stp, .brep.
/// Straight lines and circular arcs are taken as they are; curves of other
/// kinds become arcs (mesh/arc_fit.hpp). STEP and BREP are read by
/// OpenCASCADE in a process of its own, which a bad file may crash or hang;
/// then this throws after some seconds.
/// @throws InputError with key "file"
DrawnOutline read_outline(const std::filesystem::path& file,
                          const OutlineOptions& options);

}  // namespace thinspot::mesh
