#include "io/cli/compare_summary.hpp"
#include "io/cli/options.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/cli/wrap.hpp"
#include "io/comparison_files.hpp"
#include "io/kept_folder.hpp"
#include "io/readings_compared.hpp"
#include "io/readings_file.hpp"
#include "mesh/errors.hpp"
#include "viz/comparison_chart.hpp"
#include "viz/comparison_page.hpp"
#include "viz/readings_chart.hpp"

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

std::string more() {
  return "A and B are folders that thinspot solve has filled, of one part: "
         "tank,\n"
         "anodes, current, time and how the part hangs may differ. In place of "
         "B\n"
         "a table of what was read at the bench. What is compared, and what it "
         "is\n"
         "worth: docs/comparing.md.\n";
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(compare_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.size() < 2)
    throw InputError(
        line.operands.empty() ? "" : line.operands.front(),
        line.operands.empty() ? "nothing to compare is given"
                              : "has nothing to be compared with",
        "write: thinspot compare A-out B-out, or A-out READINGS.csv");
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

/// All but the last file; made before, so that what fails leaves the folder as
/// it was.
void write_all(OutputFolder& folder, const std::string& page,
               const std::string& picture, const std::string& csv) {
  folder.begin();
  folder.write("compare.html", page);
  folder.write("compare.svg", picture);
  folder.write("compare.csv", csv);
}

/// Prints the text, its verdict in bold.
void say(const std::string& verdict, const std::string& text) {
  const std::string first = wrapped(verdict);
  print_bold(stdout, first);
  print(stdout, text.substr(first.size()));
}

int compare_results(const CommandLine& line) {
  const solver::KeptResult a = read_kept_folder(line.operands[0]);
  const solver::KeptResult b = read_kept_folder(line.operands[1]);
  OutputFolder folder(folder_for(line), comparison_name);
  refuse_own_folder(folder.path(), line.operands);
  const solver::Comparison comparison = solver::compared(a, b);
  const ComparisonWords words = comparison_words(a, b, comparison);
  const std::string picture = viz::comparison_chart(a, b, comparison);
  write_all(
      folder,
      viz::comparison_page(comparison_json(a, b, comparison, words), picture),
      picture, comparison_csv(a, comparison));
  folder.write(std::string(comparison_name),
               comparison_json(a, b, comparison, words, folder.written()));
  if (!line.has("quiet"))
    say(words.verdict, compare_summary(a, b, words, folder.path()));
  return 0;
}

int compare_readings(const CommandLine& line) {
  const std::string& file = line.operands[1];
  const solver::KeptResult kept = read_kept_folder(line.operands[0]);
  const std::vector<solver::Reading> readings = read_readings(file);
  OutputFolder folder(folder_for(line), comparison_name);
  refuse_own_folder(folder.path(), line.operands);
  const auto all = solver::read_against(kept, readings, file);
  const ReadingsWords words = readings_words(all);
  std::vector<std::string> names;
  for (const ReadRow& row : words.rows) names.push_back(row.name);
  const std::string picture = viz::readings_chart(kept, all, names);
  write_all(
      folder,
      viz::comparison_page(readings_json(kept, file, all, words), picture),
      picture, readings_csv(all));
  folder.write(std::string(comparison_name),
               readings_json(kept, file, all, words, folder.written()));
  if (!line.has("quiet"))
    say(words.verdict, readings_summary(kept, file, words, folder.path()));
  return 0;
}

int run_compare(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(compare_verb));
    return 0;
  }
  std::error_code ignored;
  if (fs::is_regular_file(line.operands[1], ignored))
    return compare_readings(line);
  return compare_results(line);
}

}  // namespace

const Verb compare_verb = {
    "compare",
    "A-out B-out|READINGS.csv [--out DIR] [--quiet]",
    "set a result against another of the same part, or against readings",
    options,
    more,
    run_compare};

}  // namespace thinspot::io::cli
