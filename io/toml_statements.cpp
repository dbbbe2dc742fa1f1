#include "io/toml_statements.hpp"

#include "io/document.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace thinspot::io {

namespace {

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {
    if (text.starts_with(kByteOrderMark)) at_ = kByteOrderMark.size();
  }

  std::vector<Statement> all() {
    while (at_ < text_.size()) line();
    return std::move(found_);
  }

 private:
  bool more() const { return at_ < text_.size(); }
  char here() const { return more() ? text_[at_] : '\n'; }
  bool starts(std::string_view piece) const {
    return text_.substr(at_).starts_with(piece);
  }

  void skip_blanks() {
    while (here() == ' ' || here() == '\t') ++at_;
  }

  void skip_line() {
    while (more() && here() != '\n') ++at_;
    if (more()) ++at_;
  }

  void line() {
    const std::size_t begin = at_;
    skip_blanks();
    if (here() == '#' || here() == '\n' || here() == '\r') return skip_line();
    Statement s;
    s.begin = begin;
    if (here() == '[')
      header(s);
    else
      value(s);
    s.end = at_;
    found_.push_back(std::move(s));
  }

  void header(Statement& s) {
    s.kind = starts("[[") ? Statement::Kind::element : Statement::Kind::table;
    at_ += s.kind == Statement::Kind::element ? 2 : 1;
    table_ = key();
    skip_line();
    const bool element =
        s.kind == Statement::Kind::element && table_.size() == 1;
    if (element) ++elements_[table_.front()];
    place(s, {});
  }

  void value(Statement& s) {
    const std::vector<std::string> name = key();
    place(s, name);
    skip_blanks();
    ++at_;  // the equals sign
    skip_blanks();
    s.value_begin = s.value_end = at_;
    int depth = 0;
    while (more() && (depth > 0 || (here() != '\n' && here() != '#'))) {
      const char c = here();
      if (c == '#') {
        skip_line();
        continue;
      }
      if (c == '[' || c == '{') ++depth;
      if (c == ']' || c == '}') --depth;
      if (c == '"' || c == '\'')
        skip_text();
      else
        ++at_;
      if (c != ' ' && c != '\t' && c != '\r') s.value_end = at_;
    }
    skip_line();
  }

  void place(Statement& s, const std::vector<std::string>& name) {
    s.path = table_;
    s.header = table_.size();
    s.path.insert(s.path.end(), name.begin(), name.end());
    const auto count = elements_.find(s.path.front());
    s.in_element = !table_.empty() && count != elements_.end();
    if (s.in_element) s.ordinal = count->second - 1;
  }

  void skip_text() {
    const char quote = here();
    const std::string thrice(3, quote);
    const bool lines = starts(thrice);
    const std::string end = lines ? thrice : std::string(1, quote);
    at_ += end.size();
    while (more() && !starts(end))
      at_ += quote == '"' && here() == '\\' ? 2 : 1;
    at_ = std::min(text_.size(), at_ + end.size());
    // Up to two quotes may stand before the three that end it.
    while (lines && here() == quote) ++at_;
  }

  /// Names with dots between them.
  std::vector<std::string> key() {
    std::vector<std::string> names;
    do {
      if (here() == '.') ++at_;
      skip_blanks();
      const std::size_t begin = at_;
      if (here() == '"' || here() == '\'') {
        skip_text();
        names.push_back(
            parse_document(
                fmt::format("v = {}", text_.substr(begin, at_ - begin)), "")
                .find("v")
                ->text);
      } else {
        while (more() && std::string_view(" \t.=]\n").find(here()) ==
                             std::string_view::npos)
          ++at_;
        names.emplace_back(text_.substr(begin, at_ - begin));
      }
      skip_blanks();
    } while (here() == '.');
    return names;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<std::string> table_;
  std::map<std::string, std::size_t> elements_;
  std::vector<Statement> found_;
};

}  // namespace

std::vector<Statement> toml_statements(std::string_view text) {
  return Scanner(text).all();
}

}  // namespace thinspot::io
