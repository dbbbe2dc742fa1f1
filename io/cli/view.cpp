#include "io/cli/case_files.hpp"
#include "io/cli/options.hpp"
#include "io/cli/result_folder.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/cli/window_process.hpp"
#include "io/output_file.hpp"
#include "io/output_folder.hpp"
#include "io/summary_json.hpp"
#include "io/vtk_data.hpp"
#include "io/words.hpp"

#include <fmt/format.h>

#include <charconv>
#include <filesystem>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

const std::vector<Option> options = {
    {"save", "FILE.png", "save the picture and end; no window is opened"},
    {"step", "NUMBER", "step to show at first, from 1; left out: the last"},
    {"field", "NAME",
     "what colours the liquid: potential (left out) or current"},
    {"set", "KEY=VALUE", "override a key of a case file; any number", true},
    {"help", "", "this text"},
};

std::string more() {
  return "A folder is one that thinspot solve wrote. A case file is computed\n"
         "first, several as layers, and nothing is written.\n\n"
         "In the window: left and right arrow or the slider go through the "
         "steps,\n"
         "F changes what colours the liquid, a click on the part reads it "
         "there,\n"
         "P looks at the parts, A at all, the wheel or + and - magnify, "
         "dragging\n"
         "moves, S saves a picture in the folder that you are in, Q closes.\n"
         "It needs a display with OpenGL, --save too.\n";
}

int step_of(const CommandLine& line) {
  const std::string text = line.value("step");
  if (text.empty()) return 0;
  int step = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, step);
  if (error != std::errc() || stop != end || step < 1)
    throw InputError("--step", fmt::format("\"{}\" is no step", text),
                     "a whole number from 1 on");
  return step;
}

bool is_current(const CommandLine& line) {
  const std::string text = line.value("field");
  if (!text.empty() && text != "potential" && text != "current")
    throw InputError("--field", fmt::format("\"{}\" is unknown", text),
                     "potential or current");
  return text == "current";
}

/// What of the result the window needs, as solve would write it.
std::map<std::string, std::string> files_of(const solver::Result& result) {
  std::map<std::string, std::string> files;
  files[std::string(summary_name)] = summary_json(result, words_for(result));
  files["section.vtu"] = section_vtu(result);
  files["steps.pvd"] = steps_pvd(result);
  if (!has_step_files(result)) files["surface.vtp"] = surface_vtp(result);
  for (std::size_t k = 0; has_step_files(result) && k < result.steps.size();
       ++k)
    files[step_file(k)] = step_vtp(result, k);
  return files;
}

/// "coin" for "coin-out", to name pictures after.
std::string stem_of(const fs::path& folder) {
  std::error_code ignored;
  const std::string name = fs::weakly_canonical(folder, ignored)
                               .lexically_normal()
                               .filename()
                               .string();
  return name.ends_with("-out") ? name.substr(0, name.size() - 4) : name;
}

WindowPacket packet_for(const CommandLine& line) {
  WindowPacket packet;
  packet.save = line.value("save");
  packet.step = step_of(line);
  packet.current = is_current(line);
  for (const std::string& operand : line.operands)
    packet.shown += (packet.shown.empty() ? "" : ", ") + operand;
  return packet;
}

int view(const std::vector<std::string>& arguments) {
  const CommandLine line = parse_options(view_verb.name, options, arguments);
  if (line.has("help")) {
    print(stdout, help_of(view_verb));
    return 0;
  }
  if (line.operands.empty())
    throw InputError("", "nothing to show is given",
                     "write: thinspot view CASE-out, or CASE.toml");
  WindowPacket packet = packet_for(line);
  if (!packet.save.empty())
    check_picture_target(packet.save, Picture::png, "--save");
  const std::vector<fs::path> named(line.operands.begin(), line.operands.end());
  if (is_result_folder(line)) {
    packet.stem = stem_of(named.front());
    packet.files = read_result_folder(named.front());
    return run_window(packet);
  }
  packet.stem = stem_of(default_output_folder(named));
  const std::vector<CaseFile> files = read_cases(line);
  // Asked before the case is computed, not after.
  WindowPacket question;
  question.only_ask = true;
  if (const int status = run_window(question); status != 0) return status;
  packet.files = files_of(simulated(files));
  return run_window(packet);
}

}  // namespace

const Verb view_verb = {
    "view",
    "DIR|CASE.toml... [--save FILE.png] [--step NUMBER]\n"
    "                 [--field NAME] [--set KEY=VALUE]...",
    "show results in a window, or those of a case without writing them",
    options,
    more,
    view};

}  // namespace thinspot::io::cli
