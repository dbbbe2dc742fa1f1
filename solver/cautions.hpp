#pragma once

#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

struct CautionFacts;

/// A warning and what calls for it.
struct CautionRule {
  std::string id;
  std::string when;   ///< in words
  std::string text;   ///< what the user reads
  std::string basis;  ///< where it comes from
  bool (*applies)(const CautionFacts&);
};

/// All of them, most serious first.
const std::vector<CautionRule>& caution_rules();

/// Texts of the warnings that a set-up calls for, most serious first. They do
/// not replace safety data sheets, local codes or licensed practice, and say
/// so.
std::vector<std::string> cautions_for(const Case& c);

/// @returns nullptr where no rule says that.
const CautionRule* caution_of(const std::string& text);

/// What the model leaves out and by how much, with figures where there are
/// any.
std::vector<std::string> model_notes(const Case& c, double wagner);

}  // namespace thinspot::solver
