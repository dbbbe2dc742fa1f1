#pragma once

#include "mesh/errors.hpp"

#include <map>
#include <string>
#include <vector>

namespace thinspot::io {

/// Key address -> line in the case file; 0: set on the command line.
using KeyLines = std::map<std::string, int>;

/// Where a key stands, as in "coin.toml:12"; for a key that is not there the
/// table that it belongs to. "--set" for what the command line gave.
std::string place_of(const std::string& key, const std::string& path,
                     const KeyLines& lines);

/// Gathers what is wrong with a case file while it is read on, so that the
/// user sees it all at once.
class Findings {
 public:
  explicit Findings(std::string path) : path_(std::move(path)) {}

  void found_at(const std::string& key, int line) { lines_[key] = line; }
  void add(std::string key, std::string wrong, std::string mend);
  /// Problems with keys relative to a solid, which is at address `prefix`.
  void add(const std::string& prefix, const InputError& error);

  bool empty() const { return problems_.empty(); }
  const KeyLines& lines() const { return lines_; }
  const std::string& path() const { return path_; }

  /// @throws InputError with everything found, in the order of the file; does
  ///         nothing where nothing was found.
  void throw_if_any() const;

 private:
  std::string path_;
  KeyLines lines_;
  std::vector<Problem> problems_;
};

}  // namespace thinspot::io
