#include "io/cli/case_files.hpp"

#include "mesh/outline.hpp"
#include "mesh/whole_file.hpp"
#include "solver/simulate.hpp"

#include <fmt/format.h>

#include <charconv>
#include <system_error>
#include <utility>

namespace thinspot::io::cli {

namespace {

/// "2:key=value" taken apart.
struct Addressed {
  std::size_t file = 0;  ///< from 1; 0: no number
  std::string text;
};

Addressed taken_apart(const std::string& override_text) {
  Addressed result{0, override_text};
  const char* begin = override_text.data();
  const char* end = begin + override_text.size();
  std::size_t number = 0;
  const auto [stop, error] = std::from_chars(begin, end, number);
  if (error != std::errc() || stop == end || *stop != ':') return result;
  return {number, std::string(stop + 1, end)};
}

/// What --set says of each of several files.
std::vector<std::vector<std::string>> by_file(
    const std::vector<std::string>& overrides, std::size_t count) {
  std::vector<std::vector<std::string>> of(count);
  for (const std::string& text : overrides) {
    const Addressed a = taken_apart(text);
    if (a.file == 0)
      throw InputError("--set " + text,
                       fmt::format("does not say which of the {} case files "
                                   "it is for",
                                   count),
                       fmt::format("write: --set {}:{}", count, a.text));
    if (a.file > count)
      throw InputError(
          "--set " + text,
          fmt::format("is for case file {}, and there are {}", a.file, count),
          fmt::format("a number from 1 to {}", count));
    of[a.file - 1].push_back(a.text);
  }
  return of;
}

/// What --set has put into one of several files is said with its number.
InputError numbered(const InputError& error, std::size_t file) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems)
    if (p.place == "--set") p.key = fmt::format("{}:{}", file + 1, p.key);
  return InputError(std::move(problems));
}

}  // namespace

std::vector<CaseFile> read_cases(const CommandLine& line,
                                 const std::vector<std::string>& of_each) {
  const std::size_t count = line.operands.size();
  std::vector<std::vector<std::string>> overrides{line.values("set")};
  if (count > 1) overrides = by_file(overrides.front(), count);
  std::vector<CaseFile> files;
  std::vector<Problem> problems;
  for (std::size_t k = 0; k < count; ++k) {
    overrides[k].insert(overrides[k].end(), of_each.begin(), of_each.end());
    try {
      files.push_back(read_case(line.operands[k], overrides[k]));
    } catch (const InputError& error) {
      const InputError told = count > 1 ? numbered(error, k) : error;
      problems.insert(problems.end(), told.problems().begin(),
                      told.problems().end());
    }
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return files;
}

std::vector<solver::Case> contents(const std::vector<CaseFile>& files) {
  std::vector<solver::Case> cases;
  for (const CaseFile& file : files) cases.push_back(file.content);
  return cases;
}

solver::Result simulated(const std::vector<CaseFile>& files,
                         const solver::Progress& progress,
                         const solver::Wanted& wanted) {
  try {
    return solver::simulate(contents(files), progress, wanted);
  } catch (const solver::LayerError& error) {
    throw located(error, files);
  } catch (const InputError& error) {
    throw located(error, files.front());
  }
}

InputError located(const solver::LayerError& error,
                   const std::vector<CaseFile>& files) {
  const CaseFile& file = files[error.layer()];
  return numbered(located(static_cast<const InputError&>(error), file),
                  error.layer());
}

std::map<std::string, std::string> bytes_of(
    const std::vector<CopiedDrawing>& drawings) {
  std::map<std::string, std::string> all;
  for (const CopiedDrawing& d : drawings) {
    if (all.contains(d.name)) continue;
    mesh::WholeFile whole = mesh::read_whole_file(d.from, mesh::kLargestFile);
    if (whole.fault != mesh::WholeFile::Fault::none)
      throw InputError(d.from.string(), "cannot be read any more",
                       "leave the drawing where it is until the end");
    all[d.name] = std::move(whole.bytes);
  }
  return all;
}

}  // namespace thinspot::io::cli
