#pragma once

#include <string>
#include <vector>

namespace thinspot::bench {

/// What a general finite-element program makes of a script of this folder.
struct AnotherProgram {
  double seconds = 0;  ///< its own for its loop; 0: it is not there
  std::vector<std::vector<double>> rows;  ///< its lines of numbers
};

AnotherProgram by_another_program(const std::string& script);

}  // namespace thinspot::bench
