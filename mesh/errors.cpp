#include "mesh/errors.hpp"

#include <utility>

namespace thinspot {

namespace {

std::string first_line(const std::vector<Problem>& problems) {
  if (problems.empty()) return "bad input";
  const Problem& p = problems.front();
  return p.key + ": " + p.wrong + "; " + p.mend;
}

}  // namespace

InputError::InputError(std::vector<Problem> problems)
    : CaseError(first_line(problems)), problems_(std::move(problems)) {}

InputError::InputError(std::string key, std::string wrong, std::string mend)
    : InputError(std::vector<Problem>{
          {std::move(key), std::move(wrong), std::move(mend)}}) {}

}  // namespace thinspot
