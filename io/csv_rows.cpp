#include "io/csv_rows.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

bool ends_cell(char c) { return c == ',' || c == '\n' || c == '\r'; }

}  // namespace

std::string CsvRows::cell() {
  std::string value;
  if (at_ >= text_.size() || text_[at_] != '"') {
    const std::size_t start = at_;
    while (at_ < text_.size() && !ends_cell(text_[at_])) ++at_;
    return std::string(text_.substr(start, at_ - start));
  }
  const auto refuse = [&](const char* wrong, const char* mend) {
    throw InputError(fmt::format("line {}", line_), wrong, mend);
  };
  for (++at_;; ++at_) {
    if (at_ >= text_.size())
      refuse("has a quote that is never closed", "close it");
    const char c = text_[at_];
    if (c == '\n') ++next_line_;
    if (c != '"') {
      value += c;
    } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
      value += '"';
      ++at_;
    } else {
      break;
    }
  }
  ++at_;
  if (at_ < text_.size() && !ends_cell(text_[at_]))
    refuse("has text after a closing quote", "put a comma between");
  return value;
}

bool CsvRows::next(std::vector<std::string>& cells) {
  while (at_ < text_.size() && (text_[at_] == '\n' || text_[at_] == '\r'))
    if (text_[at_++] == '\n') ++next_line_;
  if (at_ >= text_.size()) return false;
  line_ = next_line_;
  cells.clear();
  for (;;) {
    cells.push_back(cell());
    if (at_ >= text_.size() || text_[at_] != ',') break;
    ++at_;
  }
  return true;
}

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace thinspot::io
