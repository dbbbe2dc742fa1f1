#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

struct Member;

/// A TOML value as plain data, with the line it stands on.
struct Node {
  enum class Kind { text, number, flag, list, table, other };
  Kind kind = Kind::other;
  /// Of a text; also of a number or flag that came from the command line,
  /// where "2" may be meant as a name.
  std::string text;
  double number = 0;
  bool flag = false;
  std::vector<Node> items;      ///< of a list
  std::vector<Member> members;  ///< of a table, in the order of the file
  int line = 0;                 ///< 0: from the command line

  const Node* find(std::string_view name) const;
  Node* find(std::string_view name);
};

struct Member {
  std::string name;
  Node value;
};

/// Files above this size are no case files [bytes].
inline constexpr std::size_t kLargestFile = 1'000'000;

/// What some editors put before a text.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// The whole text of a file.
/// @throws InputError with its place filled in, where the file is missing, not
///         a regular file, or too large.
/// @param meant  what it should be, for messages
std::string document_text(const std::filesystem::path& file,
                          const std::string& meant = "a case file");

/// @throws InputError likewise, and where it is not TOML.
Node read_document(const std::filesystem::path& file);

/// @param name  of the text, for messages: a file's path.
/// @throws InputError as above.
Node parse_document(std::string_view text, const std::string& name);

}  // namespace thinspot::io
