#pragma once

namespace thinspot::io {

/// What a process of a sweep's crew does: reads what the sweep is, then stretch
/// after stretch of points; has them computed by a child of its own; sends
/// news. Ends with the other end of the socket.
[[noreturn]] void supervise_sweep(int socket);

}  // namespace thinspot::io
