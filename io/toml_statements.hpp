#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A line of a TOML text, or several where its value runs on: [table],
/// [[table]], or key = value. Offsets are in bytes.
struct Statement {
  enum class Kind { table, element, value };
  Kind kind = Kind::value;
  /// Names from the top of the document on: "anode", "gap"; of a table as well.
  std::vector<std::string> path;
  /// Of what stands in an [[element]] of the top level, or is one: its number
  /// among those of that name, from 0.
  std::size_t ordinal = 0;
  bool in_element = false;
  std::size_t header = 0;  ///< names of its path that its table's header has
  std::size_t begin = 0;   ///< of its first line
  std::size_t value_begin = 0, value_end = 0;  ///< of a value
  std::size_t end = 0;                         ///< behind its last line's break
};

/// All statements in their order; lines that are blank or hold a comment alone
/// belong to none.
/// @pre the text is TOML
std::vector<Statement> toml_statements(std::string_view text);

}  // namespace thinspot::io
