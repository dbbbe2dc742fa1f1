#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace thinspot::io {

/// The number that a text starts with.
struct NumberStart {
  double number = 0;       ///< infinite where it is beyond all numbers
  std::size_t length = 0;  ///< characters read; 0: no number
};

/// Reads with a decimal point whatever the locale; a leading + is taken.
NumberStart read_number(std::string_view text);

/// Spots the ways in which people write one length with two numbers, or with a
/// comma: "1 1/2 in", "1-1/2 in", "1/2 in", "1½ in", "5'6\"", "1,5 mm",
/// "1 000 mm".
/// @returns how it is to be written ("1.5 in"), both ways where it may mean
///          two things; nullopt where there is nothing to mend.
std::optional<std::string> one_number_for(std::string_view text);

}  // namespace thinspot::io
