#pragma once

#include "mesh/curve.hpp"
#include "mesh/module.hpp"
#include "mesh/size_field.hpp"

#include <string>
#include <vector>

// What Gmsh and OpenCASCADE do for us. They lie in a module of their own,
// thinspot-kernel.so, as they take longer to load than a small case to solve,
// and work in a process of their own: where Gmsh finds no mesh it throws out of
// a parallel region, which ends a program on the spot.
namespace thinspot::mesh {

/// The module's functions: bytes in, bytes out. What goes wrong they throw as
/// std::exception, or as Gmsh does.
struct Kernel {
  std::string (*triangles)(const std::string& request);
  std::string (*cut)(const std::string& request);
  /// @returns a drawing, or what is wrong with it, as outline_packed has it
  std::string (*drawing)(const std::string& file, bool step);
};

/// What would be right in place of a STEP or BREP file that is not.
inline constexpr const char* kWantedDrawing =
    "a file with the section's flat face alone, in a plane z = const";

/// Gmsh takes 108 MB (measured).
inline constexpr ModuleFile kernel_file{"thinspot-kernel", 130u << 20};

/// Opens the module in this process, once; children have it from then on.
/// @throws ModuleError
const Kernel& kernel();

/// Starts the process in which the kernel works, to load it while this one goes
/// on; where answers are kept, only if there are none.
void begin_kernel();

// ---- what is asked, and what comes back ----

/// A piece of the liquid's boundary as the mesher is told of it.
struct MeshPiece {
  Point from, to;
  double bulge;
  int start, end;  ///< vertices
  int region;
};

/// One try at a mesh.
struct Attempt {
  int algorithm = 0;  ///< Gmsh's number of it
  double share = 1;   ///< of the wanted sizes
};

struct MeshRequest {
  std::vector<MeshPiece> pieces;
  SizeField size;
  Attempt attempt;
};

/// Straight triangles; an edge of the boundary knows the piece it lies on.
struct MeshAnswer {
  struct Edge {
    std::size_t from, to, piece;
  };
  std::vector<std::size_t> tags;     ///< of the nodes
  std::vector<double> xyz;           ///< of the nodes, three each [m]
  std::vector<std::size_t> corners;  ///< tags, three a triangle
  std::vector<Edge> edges;
};

/// A piece of the liquid's boundary as the booleans left it: of which outline,
/// loop and curve, between which fractions of the curve.
struct CutPiece {
  int region;  ///< of liquid; any number
  int outline, loop, curve;
  int start, end;  ///< vertices
  double from, to;
};

/// Asks the process in which the kernel works, or what is kept of its answers
/// (mesh/kept_answers.hpp).
/// @throws NoResultError as Child::ask does
/// @throws ModuleError where the module cannot be opened
MeshAnswer ask_for_triangles(const MeshRequest& request);
/// @param outlines  of the liquid's bounds, then of the solids
std::vector<CutPiece> ask_for_cut(const std::vector<Outline>& outlines);

/// What a request of the kernel is kept under.
/// @param work  what is asked for
std::string kernel_key(char work, const std::string& request);

/// Alike things are alike to the byte: no gaps are filled by chance.
std::string packed(const MeshRequest& request);
std::string packed(const MeshAnswer& answer);
std::string packed(const std::vector<Outline>& outlines);
std::string packed(const std::vector<CutPiece>& cut);

/// @throws NoResultError where it is cut short or cannot be what it should be
MeshRequest unpacked_mesh_request(const std::string& text);
/// @param pieces  that were asked for
MeshAnswer unpacked_mesh_answer(const std::string& text, std::size_t pieces);
std::vector<Outline> unpacked_outlines(const std::string& text);
/// @param outlines  that were to be cut
std::vector<CutPiece> unpacked_cut(const std::string& text,
                                   const std::vector<Outline>& outlines);

}  // namespace thinspot::mesh
