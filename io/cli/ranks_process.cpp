#include "io/cli/ranks_process.hpp"

#include "mesh/errors.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace thinspot::io::cli {

namespace fs = std::filesystem;

bool under_mpi() {
  // Open MPI's own launcher, and those of clusters that speak PMIx.
  for (const char* name : {"OMPI_COMM_WORLD_SIZE", "PMIX_RANK"})
    if (std::getenv(name)) return true;
  return false;
}

void become_rank(const std::vector<std::string>& arguments) {
  std::error_code error;
  const fs::path here = fs::read_symlink("/proc/self/exe", error);
  std::string program = (here.parent_path() / "thinspot-ranks").string();
  std::vector<std::string> texts = arguments;
  std::vector<char*> all{program.data()};
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  ::execv(program.c_str(), all.data());
  throw NoResultError(program + " cannot be started: " + std::strerror(errno) +
                      "; it is built where Open MPI is found, and lies beside "
                      "thinspot. Without mpirun a sweep uses this machine "
                      "alone");
}

}  // namespace thinspot::io::cli
