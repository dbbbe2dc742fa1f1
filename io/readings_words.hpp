#pragma once

#include "solver/read_against.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// One reading as text.
struct ReadRow {
  std::string name;        ///< "Thickness, left face, centre"
  std::string read;        ///< "9.2 µm ± 0.5 µm"
  std::string forecast;    ///< "8.9 µm (7.5 to 9.8)"
  std::string difference;  ///< forecast less reading: "−0.3 µm (−3 %)"
  std::string z;           ///< "−0.4"
};

struct ReadingsWords {
  std::string verdict;
  std::vector<std::string> places;  ///< the farthest, and what they lean to
  std::vector<std::string> notes;
  std::vector<ReadRow> rows;
};

/// @param all  at least one
ReadingsWords readings_words(const std::vector<solver::ReadAgainst>& all);

}  // namespace thinspot::io
