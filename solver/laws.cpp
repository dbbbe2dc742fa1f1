#include "solver/laws.hpp"

#include <stdexcept>

namespace thinspot::solver {

const std::vector<LawKind>& law_kinds() {
  static const std::vector<LawKind> kinds{
      {"linear", Law::linear},
      {"tafel", Law::tafel},
      {"butler-volmer", Law::butler_volmer}};
  return kinds;
}

std::string_view word_of(Law law) {
  for (const LawKind& kind : law_kinds())
    if (kind.law == law) return kind.word;
  throw std::logic_error("a law has no row in law_kinds()");
}

std::optional<Law> find_law(std::string_view word) {
  for (const LawKind& kind : law_kinds())
    if (kind.word == word) return kind.law;
  return std::nullopt;
}

}  // namespace thinspot::solver
