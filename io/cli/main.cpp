#include "io/cli/exit_status.hpp"
#include "io/cli/run.hpp"
#include "io/cli/terminal.hpp"
#include "mesh/freed_memory.hpp"

int main(int argc, char** argv) {
  using namespace thinspot;
  io::cli::prepare_streams();
  mesh::keep_freed_memory();
  io::cli::end_in_one_line();
  try {
    const int status = io::cli::run({argv + (argc > 0 ? 1 : 0), argv + argc});
    io::cli::finish_output();
    return status;
  } catch (...) {
    return io::cli::tell_error();
  }
}
