#include "io/cli/error_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

constexpr std::size_t most_lines = 10;

std::string line(const Problem& p) {
  std::string text;
  for (const std::string* piece : {&p.place, &p.key})
    if (!piece->empty()) text += *piece + ": ";
  text += p.wrong;
  if (!p.mend.empty()) text += "; " + p.mend;
  // Names of files may hold anything.
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text + "\n";
}

}  // namespace

std::string error_text(const InputError& error) {
  const std::vector<Problem>& problems = error.problems();
  const std::size_t shown = std::min(problems.size(), most_lines);
  std::string text;
  for (std::size_t k = 0; k < shown; ++k) text += line(problems[k]);
  if (problems.size() > shown)
    text += fmt::format("… and {} more\n", problems.size() - shown);
  return text;
}

}  // namespace thinspot::io::cli
