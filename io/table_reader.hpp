#pragma once

#include "io/case_key_words.hpp"
#include "io/case_keys.hpp"
#include "io/document.hpp"
#include "io/findings.hpp"
#include "mesh/curve.hpp"
#include "solver/case.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Typed access to one table of a case file. What is wrong with a key goes to
/// the findings and the key then reads as left out, so that reading goes on.
/// On construction the findings learn of every unknown and missing key.
class TableReader {
 public:
  /// @param table    nullptr where the file has no such table; every key is
  ///                 then left out.
  /// @param address  "part", "anode.sheet"; "" at the top level.
  /// @param known    all that may stand in it.
  TableReader(const Node* table, std::string address,
              std::vector<KeyInfo> known, Findings& findings);

  /// False where the file has no such table.
  bool present() const { return table_ != nullptr; }
  bool has(std::string_view key) const { return node(key) != nullptr; }
  /// What the user said just now, and no file.
  bool from_command_line(std::string_view key) const {
    return has(key) && node(key)->line == 0;
  }
  const std::string& address() const { return address_; }
  std::string address_of(std::string_view key) const;

  /// Text, name or choice.
  std::optional<std::string> text(std::string_view key);
  std::optional<bool> flag(std::string_view key);
  std::optional<double> whole(std::string_view key);
  /// A bare number.
  std::optional<double> factor(std::string_view key);
  std::optional<double> value(std::string_view key);
  std::optional<solver::Quantity> quantity(std::string_view key);
  /// A list of that length, or a single one that stands for all.
  std::optional<std::vector<solver::Quantity>> quantities(std::string_view key,
                                                          std::size_t count);
  std::optional<mesh::Point> point(std::string_view key);
  std::optional<std::vector<mesh::Point>> points(std::string_view key);
  std::optional<std::vector<std::string>> texts(std::string_view key);
  std::optional<std::array<double, 2>> value_pair(std::string_view key);

  /// A list of quantities, however long; one alone is a list of one.
  std::optional<std::vector<solver::Quantity>> all_quantities(
      std::string_view key);
  /// The text of a key, or its bare number, unread; "" where it is neither.
  std::string as_written(std::string_view key) const;
  /// All keys that the table has, in the order of the file.
  std::vector<std::string> names() const;
  /// A table within this one whose keys have names of the user's own.
  /// @param each  what each of them takes
  TableReader free_table(std::string_view key, const KeyInfo& each);

  /// A table within this one; not present() where it is missing or none.
  TableReader table(std::string_view key, std::vector<KeyInfo> known);

  /// Notes a problem with a key of this table.
  void wrong(std::string_view key, std::string wrong, std::string mend);
  /// Notes that the key is missing; `mend` says how to give it.
  void missing(std::string_view key, std::string mend);

 private:
  const Node* node(std::string_view key) const;
  const KeyInfo& info(std::string_view key) const;
  void check_members();
  std::optional<std::string> plain_text(std::string_view key, const Node& node);
  std::optional<solver::Quantity> read(std::string_view key, const Node& node,
                                       const KeyInfo& info);
  std::optional<std::array<double, 2>> read_pair(std::string_view key,
                                                 const Node& node);

  const Node* table_;
  std::string address_;
  std::vector<KeyInfo> known_;
  Findings& findings_;
};

}  // namespace thinspot::io
