#pragma once

#include "solver/comparison.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// One number of both results, as text; a dash where there is none.
struct ComparedRow {
  std::string name;        ///< "Thinnest spot"
  std::string a, b;        ///< "8.92 µm"
  std::string difference;  ///< "+4.5 µm (+51 %)", "the same"
  std::string remark;      ///< what the bands say; may be empty
};

/// What a comparison says: alike on terminal and page.
struct ComparisonWords {
  std::string verdict;
  std::vector<std::string> places;  ///< most gained, most lost, how much of it
  std::vector<std::string> notes;   ///< what to know about them
  std::vector<ComparedRow> rows;
  std::vector<ComparedRow> copies;  ///< means of each on a rack; else empty
};

ComparisonWords comparison_words(const solver::KeptResult& a,
                                 const solver::KeptResult& b,
                                 const solver::Comparison& comparison);

/// "+4.5 µm", "−0.02 V", with as many digits; "0" has no sign.
std::string signed_digits(double value, int count = 3);

/// "+51 %" of what it was; empty where that is next to nothing.
std::string change_in_percent(double before, double after);

/// Name of a figure in compare.json, and its unit's factor from SI.
struct FigureName {
  const char* key;   ///< "thinnest_um"
  const char* said;  ///< "Thinnest spot"
  const char* unit;  ///< "µm"
  double factor;
};
FigureName figure_name(solver::Figure::Of of);

}  // namespace thinspot::io
