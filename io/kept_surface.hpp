#pragma once

#include "solver/kept_result.hpp"

#include <string_view>

namespace thinspot::io {

/// More rows no surface has.
inline constexpr std::size_t most_surface_rows = 2'000'000;

/// Reads surface.csv into the parts that the summary names: surface, faces in
/// the order in which they come where the summary names none, outlines, and
/// bands where the table has them.
/// @pre kept.result has its parts, in the table's order, and its cut
/// @throws InputError with key "surface.csv" or "surface.csv: line N"
void read_surface(std::string_view csv, solver::KeptResult& kept);

}  // namespace thinspot::io
