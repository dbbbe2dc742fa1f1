#pragma once

#include "io/cli/window_packet.hpp"

namespace thinspot::io::cli {

/// Starts thinspot-window, which lies beside this program, hands it a packet
/// and waits for its end. It is a program of its own because loading what draws
/// takes longer than solving a small case. It prints its own errors.
/// @returns its exit status
/// @throws NoResultError where it is not there or crashed.
int run_window(const WindowPacket& packet);

}  // namespace thinspot::io::cli
