#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace thinspot::solver {

/// A law by the word that case files, pages and the page's scripts have for it.
struct LawKind {
  std::string_view word;
  Law law;
};

/// The one list of them.
const std::vector<LawKind>& law_kinds();

std::string_view word_of(Law law);

/// @returns nothing where no law has that word.
std::optional<Law> find_law(std::string_view word);

}  // namespace thinspot::solver
