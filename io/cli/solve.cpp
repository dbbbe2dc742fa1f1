#include "io/cli/cache.hpp"
#include "io/cli/card.hpp"
#include "io/cli/case_files.hpp"
#include "io/cli/options.hpp"
#include "io/cli/progress_bar.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/terminal_summary.hpp"
#include "io/cli/verb.hpp"
#include "io/files_module.hpp"
#include "io/output_folder.hpp"
#include "io/summary_json.hpp"
#include "io/tables_csv.hpp"
#include "io/vtk_data.hpp"
#include "io/what_if_json.hpp"
#include "io/words.hpp"
#include "mesh/module.hpp"
#include "solver/step_view.hpp"
#include "viz/contours_module.hpp"
#include "viz/report_page.hpp"
#include "viz/section_picture.hpp"
#include "viz/step_strip.hpp"
#include "viz/thickness_chart.hpp"
#include "viz/why_picture.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

/// Of the time that a case of some seconds takes; then come pictures and files.
constexpr double kSimulated = 0.95;

const std::vector<Option> options = {
    {"out", "DIR",
     "folder for the results; left out: CASE-out beside the case"},
    {"set", "KEY=VALUE",
     "override a key, as in anode.sheet.gap=\"20 mm\"; any "
     "number",
     true},
    {"strict", "", "exit status 1 where the target is not met"},
    {"quiet", "", "print nothing but errors"},
    {"tolerance", "SHARE", "accuracy of the mesh, as in \"0.1 %\""},
    no_cache,
    {"help", "", "this text"},
};

std::string more() {
  return "Several cases are layers, plated in that order on the same part; "
         "then\n"
         "--set 2:KEY=VALUE is for the second of them, and the results go "
         "into\n"
         "FIRST-SECOND-out.\n"
         "What it meshes is kept in $XDG_CACHE_HOME/thinspot, else\n"
         "~/.cache/thinspot, so that the same drawing is not meshed again.\n"
         "What it writes, file by file: docs/outputs.md.\n";
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(solve_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.empty())
    throw InputError("", "no case file is given",
                     "write: thinspot solve CASE.toml");
  return line;
}

std::vector<CaseFile> read(const CommandLine& line) {
  std::vector<std::string> overrides;
  if (line.has("tolerance"))
    overrides.push_back("accuracy.tolerance=" + line.value("tolerance"));
  std::vector<CaseFile> files = read_cases(line, overrides);
  const bool judged =
      std::any_of(files.begin(), files.end(), [](const CaseFile& file) {
        return file.content.target.thickness.has_value();
      });
  if (line.has("strict") && !judged)
    throw InputError("--strict", "the case has no target to be held to",
                     "give it [target] thickness = \"10 um\", or leave out "
                     "--strict");
  return files;
}

std::filesystem::path folder_for(const CommandLine& line) {
  if (line.has("out")) return line.value("out");
  return default_output_folder(std::vector<std::filesystem::path>(
      line.operands.begin(), line.operands.end()));
}

/// The target of the case, or of any of its layers.
bool is_missed(const solver::Result& result) {
  const auto missed = [](const solver::Result& r) {
    return r.target && !r.target->met;
  };
  return missed(result) ||
         std::any_of(result.layers.begin(), result.layers.end(),
                     [&](const auto& layer) { return missed(layer.own); });
}

void write_all(OutputFolder& folder, const solver::Result& result,
               const Words& words, const solver::Progress& progress) {
  progress.at(0);
  // The picture shows the last step's field, and the part where it is then.
  const std::string section = viz::section_picture(solver::as_left(result));
  const bool several = result.steps.size() > 1;
  const std::string strip = several ? viz::step_strip(result) : "";
  const std::string thickness = viz::thickness_chart(result);
  const std::string why = result.appraisal.why ? viz::why_picture(result) : "";
  const std::string card = card_of(result, words);
  const std::string page =
      viz::report_page(summary_json(result, words), what_if_json(result),
                       {section, thickness, why, strip, card});
  const std::string points = surface_csv(result);
  const std::string liquid = section_vtu(result);
  const std::string surface = surface_vtp(result);
  const std::string part = part_vtp(result);
  std::vector<std::string> after;
  for (std::size_t k = 0; has_step_files(result) && k < result.steps.size();
       ++k)
    after.push_back(step_vtp(result, k));
  progress.at(0.9);
  // All is made before the folder is touched: what fails leaves it as it was.
  folder.begin();
  folder.write("report.html", page);
  folder.write("card.svg", card);
  folder.write("section.svg", section);
  folder.write("thickness.svg", thickness);
  folder.write("surface.csv", points);
  folder.write("section.vtu", liquid);
  folder.write("surface.vtp", surface);
  folder.write("part.vtp", part);
  if (!why.empty()) folder.write("why.svg", why);
  if (several) folder.write("steps.svg", strip);
  for (std::size_t k = 0; k < after.size(); ++k)
    folder.write(step_file(k), after[k]);
  folder.write("steps.pvd", steps_pvd(result));
  folder.write(std::string(summary_name),
               summary_json(result, words, folder.written()));
}

int solve(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(solve_verb));
    return 0;
  }
  use_cache(line);
  const mesh::OpenedAhead pictures({viz::contours_module, files_module});
  const std::vector<CaseFile> files = read(line);
  OutputFolder folder(folder_for(line));
  ProgressBar bar(!line.has("quiet"));
  const solver::Progress whole(bar);
  const solver::Result result =
      simulated(files, whole.part(0, kSimulated), {.what_if = true});
  const Words words = words_for(result);
  write_all(folder, result, words,
            whole.part(kSimulated, 1).named({"pictures"}));
  bar.finish();
  if (!line.has("quiet")) print_summary(result, words, folder.path());
  return line.has("strict") && is_missed(result) ? 1 : 0;
}

}  // namespace

const Verb solve_verb = {
    "solve",
    "CASE.toml... [--out DIR] [--set KEY=VALUE]... [--strict]\n"
    "                 [--quiet] [--no-cache] [--tolerance SHARE]",
    "compute a case, or several as layers on one part, and write the results",
    options,
    more,
    solve};

}  // namespace thinspot::io::cli
