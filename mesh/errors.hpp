#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace thinspot {

/// One thing wrong with the user's input, in the user's own words.
struct Problem {
  std::string key;    ///< address of the offending key, as in "anode.sheet.at"
  std::string wrong;  ///< what is wrong, with the value found
  std::string mend;   ///< what would be right
  std::string place = {};  ///< "coin.toml:12", filled in where files are read
};

/// A case that cannot be computed, for either reason below. Caught as such
/// where one is only tried.
class CaseError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The input cannot be computed as it stands; whoever wrote the case can mend
/// it. Ends the program with exit status 2.
class InputError : public CaseError {
 public:
  explicit InputError(std::vector<Problem> problems);
  InputError(std::string key, std::string wrong, std::string mend);
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::vector<Problem> problems_;
};

/// The input is sound but no trustworthy result came of it: a mesh that cannot
/// be made, a failed check. Ends the program with exit status 4.
class NoResultError : public CaseError {
 public:
  using CaseError::CaseError;
};

}  // namespace thinspot
