#include "io/cli/exit_status.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/window_packet.hpp"
#include "io/output_file.hpp"
#include "io/output_folder.hpp"
#include "io/program.hpp"
#include "mesh/descriptor_bytes.hpp"
#include "mesh/errors.hpp"
#include "viz/display.hpp"
#include "viz/result_files.hpp"
#include "viz/window.hpp"

#include <fmt/format.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include <cstdint>
#include <filesystem>
#include <limits>

namespace {

using namespace thinspot;
using io::cli::WindowPacket;
using Json = nlohmann::json;

std::string standard_input() {
  std::string bytes;
  // What was cut short is no packet, and told as such.
  mesh::read_all(STDIN_FILENO, std::numeric_limits<std::uintmax_t>::max() - 1,
                 bytes);
  return bytes;
}

/// A member that is a text; "" where there is none.
std::string text_in(const Json& object, const char* name) {
  const auto found = object.is_object() ? object.find(name) : object.end();
  return object.is_object() && found != object.end() && found->is_string()
             ? found->get<std::string>()
             : "";
}

/// Title and what each step does, from summary.json.
viz::WindowStart start_of(const WindowPacket& packet) {
  const std::string name(io::summary_name);
  const Json summary = Json::parse(packet.files.at(name), nullptr, false);
  if (!summary.is_object() || !summary.contains("program") ||
      text_in(summary["program"], "name") != io::program_name)
    throw InputError(name, "is damaged, or not of thinspot",
                     "run thinspot solve again");
  viz::WindowStart start;
  start.title = text_in(summary, "title");
  if (summary.contains("steps") && summary["steps"].is_array())
    for (const Json& step : summary["steps"])
      start.steps.push_back(text_in(step, "what"));
  if (packet.current) start.field = viz::LiquidColour::current_density;
  return start;
}

/// The same error with the folder or case before it.
InputError placed(const InputError& error, const std::string& place) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems)
    if (p.place.empty()) p.place = place;
  return InputError(std::move(problems));
}

/// Puts a picture that is asked for in the window beside earlier ones.
std::string save_another(const std::string& stem, const std::string& png) {
  for (int number = 1; number < 1000; ++number) {
    const std::string name = fmt::format("{}-view-{}.png", stem, number);
    std::error_code error;
    if (std::filesystem::exists(name, error)) continue;
    try {
      io::write_picture(name, png, io::Picture::png, "--save");
      return "Saved as " + name;
    } catch (const io::OutputError& problem) {
      return problem.what();
    }
  }
  return "Not saved: there are a thousand pictures already";
}

void show(const WindowPacket& packet) {
  viz::WindowStart start;
  viz::WindowData data;
  try {
    start = start_of(packet);
    data = viz::read_result_files(packet.files);
    if (packet.step > static_cast<int>(data.steps.size()))
      throw InputError("--step",
                       fmt::format("there is no step {}", packet.step),
                       fmt::format("from 1 to {}", data.steps.size()));
  } catch (const InputError& error) {
    throw placed(error, packet.shown);
  }
  if (packet.step > 0) start.step = static_cast<std::size_t>(packet.step - 1);
  viz::require_display();
  if (packet.save.empty()) {
    viz::show_window(data, start, [&](const std::string& png) {
      return save_another(packet.stem, png);
    });
    return;
  }
  io::write_picture(packet.save, viz::window_picture(data, start),
                    io::Picture::png, "--save");
  io::cli::print(stdout, "picture: " + packet.save + "\n");
}

}  // namespace

/// thinspot-window: what thinspot view starts, with a packet on its standard
/// input. It prints its own errors, with the exit status of thinspot.
int main() {
  io::cli::prepare_streams();
  try {
    if (::isatty(STDIN_FILENO) == 1)
      throw InputError("thinspot-window", "is no command of its own",
                       "write: thinspot view CASE-out");
    const WindowPacket packet = io::cli::packet_from(standard_input());
    if (packet.only_ask)
      viz::require_display();
    else
      show(packet);
    io::cli::finish_output();
    return 0;
  } catch (...) {
    return io::cli::tell_error();
  }
}
