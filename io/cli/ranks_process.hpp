#pragma once

#include <string>
#include <vector>

namespace thinspot::io::cli {

/// Whether a launcher of MPI programs started this one, as one of several or
/// the only one.
bool under_mpi();

/// Goes on as the program that computes a sweep over MPI, which alone loads
/// what that needs.
/// @param arguments  of the verb
/// @throws NoResultError where it is not there.
[[noreturn]] void become_rank(const std::vector<std::string>& arguments);

}  // namespace thinspot::io::cli
