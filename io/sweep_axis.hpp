#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::io {

/// A key that a sweep varies, and what it is set to: "KEY=10 mm..40 mm:31",
/// "KEY=0.1 A..10 A:21 log", "KEY=0.2,0.4,0.8 A" or words, "KEY=coin,plate".
struct SweepAxis {
  std::string key;   ///< its address
  std::string unit;  ///< of the numbers, as written; empty: none, or words
  /// As --set takes them, one for each value; of a range without a number of
  /// values its two ends.
  std::vector<std::string> texts;
  std::vector<double> numbers;  ///< likewise; empty where it is set to words
  bool anywhere = false;        ///< a range of which a sample may take all
  bool by_factor = false;

  bool has_words() const { return numbers.empty(); }
  /// Of a share of it, 0 to 1: anywhere between the ends, or one of the values.
  double number_at(double share) const;
  std::size_t value_at(double share) const;
  /// As --set takes it.
  std::string text_of(double number) const;
};

/// Values of one key; a sweep of more makes no picture that anyone reads.
inline constexpr std::size_t kMostValues = 100'000;

/// @throws InputError saying what is wrong with it.
SweepAxis sweep_axis(const std::string& vary);

}  // namespace thinspot::io
