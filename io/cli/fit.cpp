#include "solver/fit.hpp"
#include "io/cli/case_files.hpp"
#include "io/cli/fit_report.hpp"
#include "io/cli/options.hpp"
#include "io/cli/progress_bar.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/document.hpp"
#include "io/experiments.hpp"
#include "io/fit_json.hpp"
#include "io/fit_words.hpp"
#include "io/fitted_case.hpp"
#include "io/output_folder.hpp"
#include "io/readings_file.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace thinspot::io::cli {

namespace {

/// Of the time that a fit takes; then come pictures and files.
constexpr double kFitted = 0.98;

const std::vector<Option> options = {
    {"out", "DIR", "folder for the fit; left out: CASE-fit beside the case"},
    {"set", "KEY=VALUE", "override a key of the case; any number", true},
    {"fit", "KEY",
     "a quantity to fit besides, as in solution.efficiency; any number", true},
    {"readings-alone", "",
     "let the readings alone speak: what the case says of how\n"
     "                       sure its quantities are is left out"},
    {"quiet", "", "print nothing but errors"},
    {"help", "", "this text"},
};

std::string more() {
  return "READINGS.csv: a line of names, then a line for each reading:\n"
         "  what,reading,plus_minus,at,method,with\n"
         "  voltage,1.32 V,,0.2 A,,\n"
         "  mass,0.15 g,0.01 g,,,\n"
         "  thickness,12 um,,\"45 mm, 65 mm\",X-ray,\n"
         "what may be voltage, current, mass, thickness, panel or two "
         "cathodes;\n"
         "with: keys of the case that were otherwise then. All of it:\n"
         "docs/fitting.md.\n";
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(fit_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.empty())
    throw InputError("", "no case file is given",
                     "write: thinspot fit CASE.toml READINGS.csv");
  if (line.operands.size() == 1)
    throw InputError("", "no readings are given",
                     "write: thinspot fit CASE.toml READINGS.csv");
  if (line.operands.size() > 2)
    throw InputError(line.operands[2], "is one file too many",
                     "all readings in one table, one case");
  return line;
}

/// The case, as the user has it.
struct Given {
  CaseFile file;
  DrawnCase drawn;
};

Given read(const CommandLine& line) {
  Given given;
  given.drawn.file = line.operands.front();
  given.drawn.overrides = line.values("set");
  given.file = read_case(given.drawn.file, given.drawn.overrides);
  given.drawn.text = document_text(given.drawn.file);
  given.drawn.content = given.file.content;
  return given;
}

solver::Fit fitted(const Given& given,
                   const std::vector<solver::Experiment>& experiments,
                   const CommandLine& line, const solver::Progress& progress) {
  solver::FitOptions wanted;
  wanted.keys = line.values("fit");
  wanted.readings_alone = line.has("readings-alone");
  try {
    return solver::fit(given.file.content, experiments, wanted, progress);
  } catch (const InputError& error) {
    throw located(error, given.file);
  }
}

/// A fit of a fitted case must not take that away.
void refuse_own_case(const std::filesystem::path& file,
                     const std::filesystem::path& folder) {
  std::error_code ignored;
  if (std::filesystem::equivalent(file, folder / "fitted.toml", ignored))
    throw InputError(file.string(), "would be written over by its own fit",
                     "give another folder with --out, or another name to the "
                     "case");
}

void write_all(OutputFolder& folder, const solver::Fit& fit,
               const FitWords& words, const FittedCase& written) {
  // All is made before the folder is touched: what fails leaves it as it was.
  const FitReport report = fit_report(fit, words, written);
  const auto drawings = bytes_of(written.drawings);
  fit_json(fit, words, written.fragment, {});
  folder.begin();
  folder.write("fitted.toml", written.text);
  for (const auto& [name, bytes] : drawings) folder.write(name, bytes);
  folder.write("fragment.toml", written.fragment);
  folder.write("residuals.svg", report.residuals);
  folder.write("fit.html", report.page);
  folder.write(std::string(fit_name),
               fit_json(fit, words, written.fragment, folder.written()));
}

int run_fit(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(fit_verb));
    return 0;
  }
  const Given given = read(line);
  const std::string& table = line.operands[1];
  const std::vector<solver::Experiment> experiments =
      experiments_of(given.drawn, read_readings(table), table);
  OutputFolder folder(line.has("out") ? std::filesystem::path(line.value("out"))
                                      : default_fit_folder(given.drawn.file),
                      fit_name);
  refuse_own_case(given.drawn.file, folder.path());
  ProgressBar bar(!line.has("quiet"));
  const solver::Progress whole(bar);
  const solver::Fit fit =
      fitted(given, experiments, line, whole.part(0, kFitted));
  const FitWords words = fit_words(fit);
  const FittedCase written = fitted_case(
      given.drawn, fit, std::filesystem::path(table).filename().string());
  write_all(folder, fit, words, written);
  whole.at(1);
  bar.finish();
  if (!line.has("quiet")) print_fit(fit, words, written, folder.path());
  return 0;
}

}  // namespace

const Verb fit_verb = {
    "fit",
    "CASE.toml READINGS.csv [--out DIR] [--set KEY=VALUE]...\n"
    "                [--fit KEY]... [--readings-alone] [--quiet]",
    "find polarization and conductivity from what was read at the bench",
    options,
    more,
    run_fit};

}  // namespace thinspot::io::cli
