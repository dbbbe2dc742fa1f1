#include "solver/plan.hpp"
#include "io/cli/card.hpp"
#include "io/cli/case_files.hpp"
#include "io/cli/options.hpp"
#include "io/cli/plan_summary.hpp"
#include "io/cli/progress_bar.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/document.hpp"
#include "io/output_folder.hpp"
#include "io/plan_json.hpp"
#include "io/plan_words.hpp"
#include "io/planned_case.hpp"
#include "io/words.hpp"
#include "solver/step_view.hpp"
#include "viz/changes_chart.hpp"
#include "viz/plan_page.hpp"
#include "viz/section_picture.hpp"
#include "viz/thickness_chart.hpp"
#include "viz/trade_off_chart.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace thinspot::io::cli {

namespace {

/// Of the time that a plan takes; then come pictures and files.
constexpr double kPlanned = 0.98;

/// Set-ups, more than any plan proposes.
constexpr std::size_t kNoMore = 9;

const std::vector<Option> options = {
    {"out", "DIR", "folder for the plan; left out: CASE-plan beside the case"},
    {"set", "KEY=VALUE",
     "override a key, as in plan.max_time=\"1 h\"; any number", true},
    {"goal", "GOAL", "time, evenness or metal, in place of the case's"},
    {"strict", "", "exit status 1 where what is wanted is out of reach"},
    {"quiet", "", "print nothing but errors"},
    {"help", "", "this text"},
};

std::string more() {
  return "What may move, and between which bounds, stands under [plan] in the\n"
         "case file, see docs/case_file.md; left out, it follows from tank "
         "and\n"
         "part. What it writes, file by file: docs/outputs.md.\n";
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(plan_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.empty())
    throw InputError("", "no case file is given",
                     "write: thinspot plan CASE.toml");
  if (line.operands.size() > 1)
    throw InputError(line.operands[1], "is a second case",
                     "plan each layer by itself");
  return line;
}

/// The case, with its text for the files that are written from it.
struct Given {
  CaseFile file;
  DrawnCase drawn;
};

Given read(const CommandLine& line) {
  std::vector<std::string> goal;
  if (line.has("goal")) goal.push_back("plan.goal=" + line.value("goal"));
  Given given;
  given.drawn.file = line.operands.front();
  given.file = read_cases(line, goal).front();
  given.drawn.text = document_text(given.drawn.file);
  given.drawn.overrides = line.values("set");
  given.drawn.overrides.insert(given.drawn.overrides.end(), goal.begin(),
                               goal.end());
  given.drawn.content = given.file.content;
  return given;
}

std::filesystem::path folder_for(const CommandLine& line) {
  if (line.has("out")) return line.value("out");
  return default_plan_folder(line.operands.front());
}

/// A plan of a planned case must not take that away: it may have been mended by
/// hand since.
void refuse_own_case(const std::filesystem::path& file,
                     const std::filesystem::path& folder) {
  std::error_code ignored;
  for (std::size_t k = 0; k < kNoMore; ++k)
    if (std::filesystem::equivalent(file, folder / planned_file(k), ignored))
      throw InputError(file.string(), "would be written over by its own plan",
                       "give another folder with --out, or another name to "
                       "the case");
}

solver::Plan planned(const Given& given, const solver::Progress& progress) {
  try {
    return solver::plan(given.file.content, progress);
  } catch (const InputError& error) {
    throw located(error, given.file);
  }
}

/// A file of the folder before it is written.
struct Piece {
  std::string name, text;
};

/// Case files, one a set-up, and the drawings that they name.
std::vector<Piece> case_files(const DrawnCase& drawn,
                              const solver::Plan& plan) {
  std::vector<Piece> pieces;
  std::vector<CopiedDrawing> drawings;
  for (std::size_t k = 0; k < plan.set_ups.size(); ++k) {
    const solver::SetUp& s = plan.set_ups[k];
    const PlannedCase written = planned_case(drawn, s.content, s.name);
    pieces.push_back({planned_file(k), written.text});
    drawings.insert(drawings.end(), written.drawings.begin(),
                    written.drawings.end());
  }
  for (const auto& [name, text] : bytes_of(drawings))
    pieces.push_back({name, text});
  return pieces;
}

/// Of the set-up to take first, and of the plan as a whole.
viz::PlanPictures pictures(const solver::Plan& plan) {
  const solver::Result &best = *plan.set_ups.front().result,
                       &drawn = *plan.drawn.result;
  viz::PlanPictures p;
  p.card = card_of(best, words_for(best));
  p.trade_off = viz::trade_off_chart(plan);
  p.changes = viz::changes_chart(plan);
  p.drawn_section = viz::section_picture(solver::as_left(drawn));
  p.drawn_thickness = viz::thickness_chart(drawn);
  if (&best == &drawn) return p;
  p.planned_section = viz::section_picture(solver::as_left(best));
  p.planned_thickness = viz::thickness_chart(best);
  return p;
}

void write_all(OutputFolder& folder, const Given& given,
               const solver::Plan& plan, const PlanWords& words) {
  // All is made before the folder is touched: what fails leaves it as it was.
  std::vector<Piece> pieces = case_files(given.drawn, plan);
  const viz::PlanPictures p = pictures(plan);
  pieces.push_back({"plan.html", viz::plan_page(plan_json(plan, words), p)});
  pieces.push_back({"plan.svg", p.card});
  pieces.push_back({"trade_off.svg", p.trade_off});
  pieces.push_back({"changes.svg", p.changes});
  folder.begin();
  for (const Piece& piece : pieces) folder.write(piece.name, piece.text);
  // An earlier plan may have had more to propose.
  for (std::size_t k = plan.set_ups.size(); k < kNoMore; ++k)
    folder.remove(planned_file(k));
  folder.write(std::string(plan_name),
               plan_json(plan, words, folder.written()));
}

int run_plan(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(plan_verb));
    return 0;
  }
  const Given given = read(line);
  OutputFolder folder(folder_for(line), plan_name);
  refuse_own_case(given.drawn.file, folder.path());
  ProgressBar bar(!line.has("quiet"));
  const solver::Progress whole(bar);
  const solver::Plan plan = planned(given, whole.part(0, kPlanned));
  const PlanWords words = plan_words(plan);
  write_all(folder, given, plan, words);
  whole.at(1);
  bar.finish();
  if (!line.has("quiet")) print_plan(plan, words, folder.path());
  return line.has("strict") && plan.out_of_reach ? 1 : 0;
}

}  // namespace

const Verb plan_verb = {
    "plan",
    "CASE.toml [--out DIR] [--set KEY=VALUE]... [--goal GOAL]\n"
    "                [--strict] [--quiet]",
    "look for a better set-up within bounds: anodes, turns, current, time",
    options,
    more,
    run_plan};

}  // namespace thinspot::io::cli
