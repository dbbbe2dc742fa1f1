#pragma once

#include "io/output_folder.hpp"
#include "io/plan_words.hpp"
#include "solver/plan.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Name of the file that comes last into a plan's folder.
inline constexpr std::string_view plan_name = "plan.json";

/// "planned.toml", "planned_2.toml" …: the case file of a set-up, from 0.
std::string planned_file(std::size_t set_up);

/// Text of the plan without the list of files and the time: the same bytes for
/// the same plan. What its page is made from. Every field: docs/outputs.md.
/// @throws NoResultError where a number is not finite, naming its field.
std::string plan_json(const solver::Plan& plan, const PlanWords& words);

/// The same with the files written beside it and the seconds taken.
/// @throws NoResultError likewise.
std::string plan_json(const solver::Plan& plan, const PlanWords& words,
                      const std::vector<WrittenFile>& files);

}  // namespace thinspot::io
