#pragma once

#include <map>
#include <string>

namespace thinspot::io::cli {

/// What thinspot hands to thinspot-window on its standard input.
struct WindowPacket {
  bool only_ask = false;  ///< whether there is a display, nothing else
  std::string shown;      ///< folder or case, as the user named it
  std::string save;       ///< PNG file; empty: open a window
  std::string stem;       ///< of pictures that are saved from the window
  int step = 0;           ///< from 1; 0: the last
  bool current = false;   ///< colour by current density
  std::map<std::string, std::string> files;  ///< of the results, by name
};

std::string to_bytes(const WindowPacket& packet);

/// @throws InputError where it is no packet, NoResultError where it is cut
///         short.
WindowPacket packet_from(const std::string& bytes);

}  // namespace thinspot::io::cli
