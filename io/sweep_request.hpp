#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace thinspot::io {

/// A sweep as it was asked for: all that its points and results depend on, so
/// that every process, here or elsewhere, makes the same of it.
struct SweepRequest {
  std::string file;                    ///< the case's, as the user named it
  std::string text;                    ///< what stands in it
  std::string drawings;                ///< a sum over what it names
  std::vector<std::string> overrides;  ///< of --set
  std::vector<std::string> vary;       ///< of --vary
  std::uint64_t sample = 0;            ///< points; 0: the whole grid
  std::uint64_t seed = 1;
  bool sobol = false;  ///< a sample by a Sobol sequence, not a hypercube
  bool bands = false;
  unsigned longest = 120;  ///< after which a point has hung [s]
  bool operator==(const SweepRequest&) const = default;
};

/// The way to another process and back.
std::string to_bytes(const SweepRequest& request);
SweepRequest sweep_request(const std::string& bytes);

}  // namespace thinspot::io
