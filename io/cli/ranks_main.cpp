#include "io/cli/exit_status.hpp"
#include "io/cli/sweep.hpp"
#include "io/cli/terminal.hpp"
#include "io/sweep_ranks.hpp"
#include "mesh/freed_memory.hpp"

// What `mpirun thinspot sweep` goes on as: of its own, as it alone loads MPI.
int main(int argc, char** argv) {
  using namespace thinspot;
  io::cli::prepare_streams();
  mesh::keep_freed_memory();
  try {
    // A process of this machine computes for this rank. It is made first: what
    // MPI opens a fork must not share.
    io::SweepCrew own(1);
    io::SweepRanks ranks(own);
    if (!ranks.leads()) {
      ranks.serve();
      return 0;
    }
    const int status =
        io::cli::sweep({argv + (argc > 0 ? 1 : 0), argv + argc}, &ranks);
    io::cli::finish_output();
    return status;
  } catch (...) {
    return io::cli::tell_error();
  }
}
