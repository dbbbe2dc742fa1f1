#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// The sentences that the terminal and the page share, so that both always
/// say the same.
struct Words {
  std::string verdict;  ///< target met or by how much not, and the time needed
  std::vector<std::string> todo = {};  ///< what to do; one a layer
  std::string thin;  ///< how thin, with band, where, on which copy
  /// What makes the doubt, and what the best measurement would leave.
  std::string sure = {};
  /// What to measure next to be surer, what tells most first; a sentence each.
  std::vector<std::string> measure = {};
  std::string along = {};  ///< how wide the band is along the surface
  std::string heavy;       ///< how heavy, likewise
  std::string copies;      ///< on a rack: how far the copies differ; else ""
  std::string shares;      ///< what clips and thieves take; "" where none are
  std::vector<std::string> bare;      ///< what stays unplated, and why
  std::vector<std::string> floating;  ///< what happens at unconnected metal
  /// What the meter should read; what half of it means; what twice.
  std::vector<std::string> meter;
  std::string wagner;         ///< the number and what it means for this set-up
  std::string throwing = {};  ///< of the solution, in a test cell
  std::string why = {};       ///< where the unevenness comes from
  std::string gas = {};       ///< what bubbles off; "" where nothing does
  /// Likely burnt places, anodes near their limit, what thick edges grow, the
  /// share in the solution's usual range.
  std::vector<std::string> burn = {}, anodes = {}, edges = {}, range = {};
  std::string solution = {};  ///< what is in the jar, and how sure that is
  /// What each of several layers has become; else empty.
  std::vector<std::string> layers = {};
};

/// @pre result.parts is not empty.
Words words_for(const solver::Result& result);

}  // namespace thinspot::io
