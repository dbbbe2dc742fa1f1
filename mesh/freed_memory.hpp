#pragma once

namespace thinspot::mesh {

/// From now on this process keeps what it frees for what it asks for next.
/// Large matrices come and go many times in a run, and the system hands each
/// out page by page (measured on a rack of 48 coins: a quarter of all time).
/// For programs, which end soon; a library leaves this to its user.
void keep_freed_memory();

}  // namespace thinspot::mesh
