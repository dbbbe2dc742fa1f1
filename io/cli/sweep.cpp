#include "io/cli/sweep.hpp"

#include "io/case_file.hpp"
#include "io/cli/options.hpp"
#include "io/cli/progress_bar.hpp"
#include "io/cli/ranks_process.hpp"
#include "io/cli/sweep_pictures.hpp"
#include "io/cli/sweep_summary.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/derived_case.hpp"
#include "io/output_folder.hpp"
#include "io/sweep.hpp"
#include "io/sweep_files.hpp"
#include "io/sweep_run.hpp"
#include "io/sweep_store.hpp"
#include "io/units.hpp"
#include "mesh/errors.hpp"
#include "mesh/kernel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <memory>
#include <optional>
#include <thread>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

/// Of the time that a sweep takes; then come tables and pictures.
constexpr double kComputed = 0.97;
constexpr std::size_t kMostJobs = 1024;
constexpr double kShortest = 1, kLongest = 86400;  // s

const std::vector<Option> options = {
    {"vary", "KEY=VALUES",
     "10 mm..40 mm:31, 0.1 A..10 A:21 log, 0.2,0.4,0.8 A, or words;\n"
     "                       any number",
     true},
    {"sample", "N", "so many points by lot in place of the whole grid"},
    {"seed", "N", "another lot; left out: 1"},
    {"sobol", "", "a sample by a Sobol sequence, not a Latin hypercube"},
    {"bands", "", "95 % bands of each point as well; takes much longer"},
    {"set", "KEY=VALUE", "override a key of the case; any number", true},
    {"out", "DIR",
     "folder for the sweep; left out: CASE-sweep beside the case"},
    {"jobs", "N", "processes; left out: one for each processor"},
    {"longest", "TIME", "a point that takes longer has hung; left out: 2 min"},
    {"again", "", "compute anew the points that were lost"},
    {"anew", "", "begin anew, and lose what is stored"},
    {"quiet", "", "print nothing but errors"},
    {"help", "", "this text"},
};

std::string more() {
  return "Every point goes into one SQLite database as soon as it is computed. "
         "A\n"
         "sweep that was ended, however that was, goes on where it was when "
         "the\n"
         "same is run again. Over many machines: mpirun thinspot sweep ... "
         "(Open\n"
         "MPI). What the tables hold: docs/sweep.md.\n";
}

std::uint64_t whole(const CommandLine& line, const std::string& option,
                    std::uint64_t low, std::uint64_t high,
                    std::uint64_t left_out) {
  if (!line.has(option)) return left_out;
  const std::string text = line.value(option);
  std::uint64_t value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < low ||
      value > high)
    throw InputError("--" + option, text + " is no number for it",
                     fmt::format("a whole number from {} to {}", low, high));
  return value;
}

unsigned longest(const CommandLine& line) {
  if (!line.has("longest")) return SweepRequest{}.longest;
  try {
    const double seconds =
        parse_quantity(line.value("longest"), Dimension::duration).value;
    if (seconds >= kShortest && seconds <= kLongest)
      return static_cast<unsigned>(seconds);
  } catch (const InputError& error) {
    throw InputError("--longest", error.problems().front().wrong,
                     error.problems().front().mend);
  }
  throw InputError("--longest", line.value("longest") + " is out of range",
                   "1 s to 1 day");
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(sweep_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.empty())
    throw InputError("", "no case file is given",
                     "write: thinspot sweep CASE.toml --vary KEY=VALUES");
  if (line.operands.size() > 1)
    throw InputError(line.operands[1], "is a second case",
                     "sweep each layer by itself");
  if (line.has("sobol") && !line.has("sample"))
    throw InputError("--sobol", "is a way to draw a sample",
                     "say how many points: --sample 1000");
  return line;
}

/// Of all drawings that any point may name.
std::string drawings_of(const SweepRequest& r) {
  const fs::path folder = fs::path(r.file).parent_path();
  const Node root = overridden(parse_document(r.text, r.file), r.overrides);
  std::string sums = sums_of_drawings(root, folder);
  for (const std::string& vary : r.vary) {
    const SweepAxis axis = sweep_axis(vary);
    if (!axis.key.ends_with(".file")) continue;
    for (const std::string& text : axis.texts)
      sums +=
          sums_of_drawings(overridden(root, {axis.key + "=" + text}), folder);
  }
  return sums;
}

SweepRequest request_of(const CommandLine& line) {
  SweepRequest r;
  r.file = line.operands.front();
  r.text = document_text(r.file);
  r.overrides = line.values("set");
  r.vary = line.values("vary");
  r.drawings = drawings_of(r);
  r.sample = whole(line, "sample", 1, kMostSamples, 0);
  r.seed = whole(line, "seed", 0, UINT64_MAX, 1);
  r.sobol = line.has("sobol");
  r.bands = line.has("bands");
  r.longest = longest(line);
  return r;
}

/// What is wrong everywhere is told at once.
void check_some(const Sweep& sweep) {
  std::optional<InputError> first;
  for (const std::uint64_t point :
       {std::uint64_t{0}, sweep.size() - 1, sweep.size() / 2})
    try {
      sweep.content(point);
      return;
    } catch (const InputError& error) {
      if (!first) first = error;
    }
  throw *first;
}

/// The database of an earlier sweep that is not wanted any more.
void remove_database(OutputFolder& folder) {
  for (const char* after : {"", "-journal"})
    folder.remove(std::string(sweep_database) + after);
}

std::unique_ptr<SweepCrew> crew_of(const CommandLine& line,
                                   const Sweep& sweep) {
  const std::uint64_t processors =
      std::max(1u, std::thread::hardware_concurrency());
  const std::uint64_t members = std::min(
      sweep.size(), whole(line, "jobs", 1, kMostJobs,
                          std::min<std::uint64_t>(processors, kMostJobs)));
  if (members > 1) mesh::kernel();  // loaded once, and not by each of them
  return std::make_unique<SweepCrew>(static_cast<std::size_t>(members));
}

}  // namespace

int sweep(const std::vector<std::string>& arguments, SweepWorkers* elsewhere) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(sweep_verb));
    return 0;
  }
  const Sweep sweep(request_of(line));
  check_some(sweep);
  OutputFolder folder(line.has("out")
                          ? fs::path(line.value("out"))
                          : default_sweep_folder(line.operands.front()),
                      sweep_name);
  // Before the database is opened, which a fork must not share.
  std::unique_ptr<SweepCrew> own;
  if (!elsewhere) own = crew_of(line, sweep);
  folder.begin();
  if (line.has("anew")) remove_database(folder);
  SweepStore store(folder.path() / sweep_database, sweep);
  if (line.has("again")) store.forget_lost();

  ProgressBar bar(!line.has("quiet"));
  const solver::Progress progress(bar);
  const std::uint64_t computed = run_sweep(sweep, elsewhere ? *elsewhere : *own,
                                           store, progress.part(0, kComputed));
  own.reset();
  const SweepOverview overview = sweep_overview(sweep, store, computed);
  write_points(folder, sweep, store);
  const auto pictures = sweep_pictures(sweep, store);
  for (const std::string& name : other_pictures(pictures)) folder.remove(name);
  for (const auto& [name, picture] : pictures) folder.write(name, picture);
  folder.write(std::string(sweep_name),
               sweep_json(sweep, overview, folder.written()));
  progress.at(1);
  bar.finish();
  if (!line.has("quiet")) print(stdout, sweep_summary(sweep, overview, folder));
  if (overview.done == 0)
    throw NoResultError("no point has one: " + overview.messages.front().first);
  return 0;
}

namespace {

int run_sweep_verb(const std::vector<std::string>& arguments) {
  if (under_mpi()) become_rank(arguments);
  return sweep(arguments, nullptr);
}

}  // namespace

const Verb sweep_verb = {
    "sweep",
    "CASE.toml --vary KEY=VALUES... [--sample N [--seed N] [--sobol]]\n"
    "                [--bands] [--set KEY=VALUE]... [--out DIR] [--jobs N]\n"
    "                [--longest TIME] [--again] [--anew] [--quiet]",
    "compute many set-ups of one case into a database, on one machine or many",
    options,
    more,
    run_sweep_verb};

}  // namespace thinspot::io::cli
