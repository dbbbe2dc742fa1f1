#pragma once

#include "io/plan_words.hpp"
#include "solver/plan.hpp"

#include <filesystem>
#include <string>

namespace thinspot::io::cli {

/// What a plan says on a terminal, at most 40 lines: what to do in order, what
/// it comes to, what else there is, cautions, and where the files are.
std::string plan_summary(const solver::Plan& plan, const PlanWords& words,
                         const std::filesystem::path& folder);

/// Prints it, its verdict in bold.
void print_plan(const solver::Plan& plan, const PlanWords& words,
                const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
