#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::tests {

/// What stands between two fences of a page.
struct Block {
  std::string kind;  ///< the word behind the opening fence: sh, text, toml …
  std::string before;  ///< the paragraph that leads up to it, in one line
  std::string text;
};

/// README.md and the pages in docs/ that are written by hand, as "README.md",
/// "docs/tutorial.md" …, in order.
std::vector<std::string> pages();

/// A file of the source tree, by its path from the top.
std::string page_text(const std::string& page);

std::vector<Block> blocks_of(const std::string& text);

/// What does not stand between fences.
std::vector<std::string> prose_of(const std::string& text);

/// The lines of a block that a shell is given, one a command: blank lines and
/// comments (behind a command parted by two spaces) left out, lines that end in
/// a backslash joined to the next.
std::vector<std::string> commands_of(const Block& block);

/// The stretches of an excerpt between lines that hold nothing but "…".
std::vector<std::string> stretches_of(const std::string& excerpt);

/// A case file with keys set as some lines of TOML say: each of them must be in
/// its table already, a comment in front of it or not, and its line is
/// replaced.
std::string with_keys(const std::string& case_file, const std::string& toml);

}  // namespace thinspot::tests
