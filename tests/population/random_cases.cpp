// Case files by lot, each through reading, mesh, currents and, one in ten, all
// outputs: each must end in finite figures within the tolerance that it states,
// or in one clear refusal; within 2 minutes and 2 GiB. The one that takes
// longest is told, and those that take more than 20 s of the processor's time.
//
//   random_cases [--cases N] [--seed N] [--show SEED]
#include "io/case_file.hpp"
#include "io/summary_json.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "random_case_text.hpp"
#include "solver/kept_set_up.hpp"
#include "solver/simulate.hpp"
#include "tests/processor_time.hpp"

#include <fmt/format.h>

#include <sys/resource.h>

#include <algorithm>
#include <atomic>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

using namespace thinspot;

namespace {

constexpr unsigned kLongest = 120;         // s
constexpr double kSlow = 20;               // s
constexpr long kMostMemory = 2L << 20;     // KiB
constexpr std::uint64_t kAllOutputs = 10;  // of so many cases one
constexpr std::uint64_t kTold = 1000;      // cases between two words of them

/// Of the time that a child took, before the rest of its answer.
constexpr std::size_t kTimeDigits = 8;

/// First letter of what a child answers.
constexpr char kSolved = 's', kRefused = 'r', kNone = 'n', kWrong = 'w',
               kCoarse = 'c';

bool is_clear(const InputError& error) {
  for (const Problem& p : error.problems())
    if (p.wrong.empty() || p.wrong.find('\n') != std::string::npos)
      return false;
  return !error.problems().empty();
}

/// What is wrong with the figures; "" nothing.
std::string fault_in(const solver::SetUpFigures& f) {
  for (const double x :
       {f.current, f.voltage, f.thickness.min, f.thickness.mean,
        f.thickness.max, f.least_judged, f.current_density.min,
        f.current_density.max, f.mass, f.mesh_errors.thickness.min,
        f.mesh_errors.thickness.max, f.mesh_errors.voltage})
    if (!std::isfinite(x)) return "a figure is not finite";
  if (!(f.thickness.min <= f.thickness.max * (1 + 1e-9)))
    return "least thickness is above the largest";
  return "";
}

/// Of this process and of those that it has started and that have ended.
double processor_time() {
  rusage own{}, below{};
  ::getrusage(RUSAGE_SELF, &own);
  ::getrusage(RUSAGE_CHILDREN, &below);
  return tests::processor_time(own) + tests::processor_time(below);
}

/// @param outputs_from  when all outputs are begun, if they are
std::string answer(std::uint64_t seed, double& outputs_from) {
  const std::string text = tests::random_case_text(seed);
  try {
    const solver::Case c = io::read_case_text(text, "lot.toml").content;
    const solver::SetUpFigures f = solver::solved_alone(c, false);
    std::string fault = fault_in(f);
    if (fault.empty() && seed % kAllOutputs == 0) {
      outputs_from = processor_time();
      io::summary_json(solver::simulate(c), {});
    }
    if (!fault.empty()) return kWrong + fault;
    return std::string(1, f.within ? kSolved : kCoarse);
  } catch (const InputError& error) {
    if (!is_clear(error)) return std::string(1, kWrong) + "unclear refusal";
    return kRefused + error.problems().front().wrong;
  } catch (const NoResultError& error) {
    return kNone + std::string(error.what());
  }
}

/// The same after kTimeDigits of the time that it took, if it did not take too
/// much memory. By the processor's time, as others work beside it; of figures
/// and all outputs, each solved anew, what takes longer.
std::string guarded(const std::string& request) {
  std::uint64_t seed = 0;
  std::from_chars(request.data(), request.data() + request.size(), seed);
  const double begun = processor_time();
  double outputs_from = begun;
  std::string said;
  try {
    said = answer(seed, outputs_from);
  } catch (const std::exception& error) {
    said = kWrong + std::string("threw ") + error.what();
  }
  const double took =
      std::max(outputs_from - begun, processor_time() - outputs_from);
  rusage own{}, below{};
  ::getrusage(RUSAGE_SELF, &own);
  ::getrusage(RUSAGE_CHILDREN, &below);
  if (std::max(own.ru_maxrss, below.ru_maxrss) > kMostMemory)
    said = kWrong + std::string("took more than 2 GiB");
  return fmt::format("{:{}.1f}", took, kTimeDigits) + said;
}

struct Tally {
  std::mutex one;
  std::uint64_t done = 0;
  std::map<char, std::uint64_t> count;
  std::vector<std::string> slow;
  double longest = 0;  // s
  std::uint64_t longest_seed = 0;
  std::map<std::string, std::uint64_t> none;
  std::vector<std::string> wrong;
};

/// Without its numbers, so that alike messages count together.
std::string kind_of(const std::string& message) {
  std::string kind;
  for (const char c : message.substr(0, 60))
    if (c < '0' || c > '9') kind += c;
  return kind;
}

}  // namespace

int main(int count, char** arguments) {
  std::uint64_t cases = 400, first = 1;
  for (int k = 1; k + 1 < count; k += 2) {
    const std::string option = arguments[k], value = arguments[k + 1];
    const std::uint64_t number = std::stoull(value);
    if (option == "--cases") cases = number;
    if (option == "--seed") first = number;
    if (option == "--show") {
      fmt::print("{}", tests::random_case_text(number));
      return 0;
    }
  }
  std::vector<std::unique_ptr<mesh::Child>> children;
  for (unsigned k = 0; k < std::max(1u, std::thread::hardware_concurrency());
       ++k) {
    children.push_back(
        std::make_unique<mesh::Child>(guarded, "the case", kLongest));
    // Started here, as one that a thread starts is slower.
    children.back()->ask("0");
  }
  Tally tally;
  std::atomic<std::uint64_t> next{first};
  const auto work = [&](mesh::Child& child) {
    for (;;) {
      const std::uint64_t seed = next++;
      if (seed >= first + cases) return;
      std::string said;
      double took = 0;
      try {
        said = child.ask(std::to_string(seed));
        took = std::stod(said.substr(0, kTimeDigits));
        said = said.substr(kTimeDigits);
      } catch (const NoResultError& error) {
        said = kWrong + std::string(error.what());
      }
      const std::lock_guard lock(tally.one);
      if (took > tally.longest) {
        tally.longest = took;
        tally.longest_seed = seed;
      }
      if (took > kSlow)
        tally.slow.push_back(fmt::format("seed {} took {:.1f} s", seed, took));
      ++tally.count[said.front()];
      if (++tally.done % kTold == 0)
        fmt::print(stderr, "{} of {} done, {} wrong, {} slow\n", tally.done,
                   cases, tally.wrong.size(), tally.slow.size());
      if (said.front() == kNone) ++tally.none[kind_of(said.substr(1))];
      if (said.front() == kWrong) {
        tally.wrong.push_back(fmt::format("seed {}: {}", seed, said.substr(1)));
        fmt::print(stderr, "{}\n", tally.wrong.back());
      }
    }
  };
  std::vector<std::thread> threads;
  for (auto& child : children)
    threads.emplace_back([&work, &child] { work(*child); });
  for (std::thread& t : threads) t.join();

  fmt::print(
      "{} cases by lot from seed {}: {} solved within their tolerance, {} "
      "solved and said to be coarser, {} refused, {} without a result, {} "
      "wrong\n",
      cases, first, tally.count[kSolved], tally.count[kCoarse],
      tally.count[kRefused], tally.count[kNone], tally.wrong.size());
  fmt::print("  seed {} took longest, {:.1f} s\n", tally.longest_seed,
             tally.longest);
  for (const auto& [message, times] : tally.none)
    fmt::print("  {} x {}\n", times, message);
  for (const std::string& slow : tally.slow) fmt::print("  {}\n", slow);
  for (const std::string& wrong : tally.wrong) fmt::print("{}\n", wrong);
  // A generator of refusals alone would show nothing.
  const bool enough = tally.count[kSolved] * 4 >= cases;
  if (!enough) fmt::print("too few were solved to tell\n");
  return tally.wrong.empty() && enough ? 0 : 1;
}
