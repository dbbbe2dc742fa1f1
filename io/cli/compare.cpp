#include "io/cli/compare_summary.hpp"
#include "io/cli/options.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/cli/wrap.hpp"
#include "io/comparison_files.hpp"
#include "io/kept_folder.hpp"
#include "mesh/errors.hpp"
#include "viz/comparison_chart.hpp"
#include "viz/comparison_page.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

const std::vector<Option> options = {
    {"out", "DIR", "folder for it; left out: A-against-B beside A"},
    {"quiet", "", "print nothing but errors"},
    {"help", "", "this text"},
};

std::string help() {
  return fmt::format(
      "thinspot compare {}\n"
      "{}.\n\n{}\n"
      "A and B are folders that thinspot solve has filled, of one part: tank,\n"
      "anodes, current, time and how the part hangs may differ. What is\n"
      "compared, and what it is worth: docs/comparing.md.\n",
      compare_verb.use, compare_verb.purpose, options_help(options));
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(compare_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.size() < 2)
    throw InputError(line.operands.empty() ? "" : line.operands.front(),
                     line.operands.empty() ? "nothing to compare is given"
                                           : "has nothing to be compared with",
                     "write: thinspot compare A-out B-out");
  if (line.operands.size() > 2)
    throw InputError(line.operands[2], "is a third one",
                     "compare two at a time");
  return line;
}

/// Last name of a path, also of "." and "a/".
std::string last_name(const fs::path& path) {
  std::error_code error;
  fs::path whole = fs::weakly_canonical(path, error);
  if (error) whole = path.lexically_normal();
  return whole.has_filename() ? whole.filename().string()
                              : whole.parent_path().filename().string();
}

/// "a-out-against-b-out" beside the first.
fs::path folder_for(const CommandLine& line) {
  if (line.has("out")) return line.value("out");
  const fs::path a = line.operands[0], b = line.operands[1];
  const std::string name =
      last_name(a) + "-against-" + fs::path(last_name(b)).stem().string();
  const std::string own = a.filename().string();
  if (own == "." || own == "..") return a / ".." / name;
  const fs::path whole = own.empty() ? a.parent_path() : a;
  return whole.parent_path() / name;
}

/// What is compared must not be written into.
void refuse_own_folder(const fs::path& folder,
                       const std::vector<std::string>& operands) {
  std::error_code ignored;
  for (const std::string& operand : operands)
    if (fs::equivalent(folder, operand, ignored))
      throw InputError(folder.string(), "is one of what is compared",
                       "give another folder with --out");
}

int compare_results(const CommandLine& line) {
  const solver::KeptResult a = read_kept_folder(line.operands[0]);
  const solver::KeptResult b = read_kept_folder(line.operands[1]);
  OutputFolder folder(folder_for(line), comparison_name);
  refuse_own_folder(folder.path(), line.operands);
  const solver::Comparison comparison = solver::compared(a, b);
  const ComparisonWords words = comparison_words(a, b, comparison);
  // All is made before the folder is touched: what fails leaves it as it was.
  const std::string csv = comparison_csv(a, comparison);
  const std::string picture = viz::comparison_chart(a, b, comparison);
  const std::string page =
      viz::comparison_page(comparison_json(a, b, comparison, words), picture);
  folder.begin();
  folder.write("compare.html", page);
  folder.write("compare.svg", picture);
  folder.write("compare.csv", csv);
  folder.write(std::string(comparison_name),
               comparison_json(a, b, comparison, words, folder.written()));
  if (line.has("quiet")) return 0;
  const std::string text = compare_summary(a, b, words, folder.path());
  const std::string verdict = wrapped(words.verdict);
  print_bold(stdout, verdict);
  print(stdout, text.substr(verdict.size()));
  return 0;
}

int run_compare(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help());
    return 0;
  }
  return compare_results(line);
}

}  // namespace

const Verb compare_verb = {
    "compare", "A-out B-out [--out DIR] [--quiet]",
    "set two results of one part against each other, place by place",
    run_compare};

}  // namespace thinspot::io::cli
