#pragma once

#include "io/units.hpp"

#include <string_view>
#include <vector>

namespace thinspot::io {

/// What a key of the case file takes.
enum class Form {
  text,        ///< any printable text
  name,        ///< a text that serves in addresses
  choice,      ///< one of a few words
  flag,        ///< true or false
  whole,       ///< a bare whole number
  factor,      ///< a bare number
  value,       ///< a quantity without tolerance
  quantity,    ///< a quantity that may carry a tolerance
  quantities,  ///< one quantity, or a list of them
  values,      ///< likewise, without tolerance
  point,       ///< two lengths [x, y]
  points,      ///< a list of points
  texts,       ///< a list of texts
  names,       ///< likewise; empty where none is meant
  value_pair,  ///< two quantities, the smaller first
  table,       ///< keys and values in braces
};

/// The range that makes sense, ends included, written as in a case file.
struct Limits {
  Dimension dimension = Dimension::length;
  std::string_view low, high;
};

namespace limits {
inline constexpr Limits length{Dimension::length, "1 um", "10 m"};
inline constexpr Limits length_or_0{Dimension::length, "0 m", "10 m"};
inline constexpr Limits coordinate{Dimension::length, "-10 m", "10 m"};
}  // namespace limits

struct KeyInfo {
  std::string_view name;
  Form form = Form::text;
  Limits limits = {};  ///< factor … value_pair
  bool required = false;
  std::vector<std::string_view> choices = {};  ///< of Form::choice
  /// Keys that cannot stand beside this one; --set of this one drops them.
  std::vector<std::string_view> instead_of = {};
  std::string_view example = {};  ///< what stands in the braces of a
                                  ///< table; of a factor or texts: whole
};

/// A table of the case file and all that may stand in it.
struct TableInfo {
  std::string_view name;   ///< "" for the file's top level
  bool repeated = false;   ///< [[name]] rather than [name]
  std::size_t most = 1;    ///< of the repeated ones
  bool has_shape = false;  ///< takes the sizes of its shape as well
  bool needed = false;     ///< a case without it is refused
  std::vector<KeyInfo> keys;
};

/// Every table that the reader knows, in the order of the reference page. The
/// one list of them: unknown keys, ranges, --set and the test of
/// docs/case_file.md go by it.
const std::vector<TableInfo>& case_tables();

/// @pre there is a table of that name
const TableInfo& table_info(std::string_view name);

/// @returns nullptr where there is no such key.
const KeyInfo* find_key(const std::vector<KeyInfo>& keys,
                        std::string_view name);

/// The one shape that is no mesh::ShapeKind: drawn in a file.
inline constexpr std::string_view kOutlineShape = "outline";

/// What a drawing takes in place of sizes: file, scale, unit.
const std::vector<KeyInfo>& outline_keys();

/// The table's own keys and the shape's sizes and flags, as
/// mesh::shape_kinds() lists them, or outline_keys(); those of all shapes, none
/// required, where there is no such shape.
std::vector<KeyInfo> keys_with_shape(const TableInfo& table,
                                     std::string_view shape);

/// Roundings, which may be 0.
bool is_radius(std::string_view size_key);

}  // namespace thinspot::io
