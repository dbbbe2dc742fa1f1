#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace thinspot::mesh {

/// A file as it was at one moment, or why there is none.
struct WholeFile {
  enum class Fault { none, absent, special, too_large, unreadable, changing };
  Fault fault = Fault::none;
  std::string bytes;
  std::uintmax_t size = 0;  ///< also of what is too large
};

/// Reads an ordinary file. Devices, pipes and folders are not opened; what
/// changes while it is read is read again, some times, so that nothing is made
/// of half an old file and half a new one.
WholeFile read_whole_file(const std::filesystem::path& file,
                          std::uintmax_t most);

}  // namespace thinspot::mesh
