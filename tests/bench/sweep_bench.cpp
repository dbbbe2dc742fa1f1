// Sweeps by the built program: points a second on one process and on two, on
// one rank of MPI and on two; what the one who hands out and stores needs for a
// point, and what that leaves of 1,000 ranks, on paper.
#include "io/sweep.hpp"
#include "io/sweep_run.hpp"
#include "io/sweep_store.hpp"
#include "tests/bench/timing.hpp"
#include "tests/scratch_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <deque>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

using namespace thinspot;

namespace {

const std::string kProgram = THINSPOT_PROGRAM;
const std::string kCases = THINSPOT_SOURCE_DIR "/cases/";
const std::string kToken = kCases + "token_one_sheet.toml";

struct Measured {
  std::string name, vary;
  double points = 0;
  std::string file = kToken;
};

const Measured kQuantities{
    "one geometry, currents and slopes",
    "--vary 'supply.current=0.1 A..0.8 A:100' --vary "
    "'cathode.polarization_resistance=0.5 ohm cm2..10 ohm cm2:100'",
    1e4};
const Measured kGeometries{"as many geometries",
                           "--vary 'anode.sheet.gap=10 mm..40 mm:1000'", 1e3};
/// Long enough that starting MPI is little of it.
const Measured kManyQuantities{
    "one geometry, currents and slopes",
    "--vary 'supply.current=0.1 A..0.8 A:200' --vary "
    "'cathode.polarization_resistance=0.5 ohm cm2..10 ohm cm2:150'",
    3e4};
const Measured kManyGeometries{
    "as many geometries", "--vary 'anode.sheet.gap=10 mm..40 mm:2000'", 2e3};
const Measured kRacks{"racks of six",
                      "--vary 'anode.left sheet.gap=20 mm..40 mm:20'", 20,
                      kCases + "rack_of_six.toml"};

/// Each is long enough that one run tells.
double seconds_of_run(const tests::Scratch& scratch, const std::string& before,
                      const Measured& what, const std::string& options) {
  const std::string command = before + kProgram + " sweep " + what.file + " " +
                              what.vary + " --anew --quiet --out " +
                              (scratch / "out").string() + " " + options;
  return bench::seconds_of([&] {
    if (std::system(command.c_str()) != 0) std::abort();
  });
}

void print_pair(const tests::Scratch& scratch, const Measured& what,
                const char* unit, const std::string& before,
                const std::string& between, const std::string& options) {
  const auto seconds = [&](int count) {
    const std::string n = std::to_string(count);
    return between.empty()
               ? seconds_of_run(scratch, before, what, options + n)
               : seconds_of_run(scratch, before + n + between, what, options);
  };
  const double one = seconds(1), two = seconds(2);
  fmt::print(
      "{}: {:.0f} points in {:.2f} s on one {} ({:.0f}/s), {:.2f} s on two "
      "({:.0f}/s), efficiency {:.0f} %\n",
      what.name, what.points, one, unit, what.points / one, two,
      what.points / two, 100 * one / (2 * two));
}

/// Ranks that take no time: what is left is who hands out and stores.
class Idle : public io::SweepWorkers {
 public:
  Idle(std::size_t count, std::size_t outputs)
      : count_(count), outputs_(outputs) {}
  std::size_t count() const override { return count_; }
  void begin(const io::SweepRequest&) override {}
  void give(std::size_t worker,
            const std::vector<std::uint64_t>& points) override {
    io::SweepNews news;
    for (const std::uint64_t point : points)
      news.answers.push_back({point, io::SweepAnswer::Status::done, "current",
                              std::vector<double>(outputs_, 1.0 / 3)});
    news.finished = true;
    waiting_.emplace_back(worker, to_bytes(news));
    bytes_ +=
        static_cast<double>(waiting_.back().second.size() + 8 * points.size());
    ++messages_;
  }
  std::optional<io::SweepNews> wait(int) override {
    if (waiting_.empty()) return {};
    const auto [worker, bytes] = waiting_.front();
    waiting_.pop_front();
    return io::sweep_news(bytes, worker);
  }
  double bytes() const { return bytes_; }
  double messages() const { return messages_; }

 private:
  std::size_t count_, outputs_;
  std::deque<std::pair<std::size_t, std::string>> waiting_;
  double bytes_ = 0, messages_ = 0;
};

/// @returns seconds for each point
double print_service(const tests::Scratch& scratch) {
  io::SweepRequest request;
  request.file = kToken;
  std::ifstream in(kToken);
  request.text.assign(std::istreambuf_iterator<char>(in), {});
  request.vary = {
      "supply.current=0.1 A..0.8 A:400",
      "cathode.polarization_resistance=0.5 ohm cm2..10 ohm cm2:500"};
  const io::Sweep sweep(request);
  Idle ranks(1000, sweep.outputs().size());
  io::SweepStore store(scratch / "service.sqlite", sweep);
  const double seconds =
      bench::seconds_of([&] { io::run_sweep(sweep, ranks, store, {}); });
  const auto points = static_cast<double>(sweep.size());
  fmt::print(
      "handing out and storing: {:.0f} points of 1,000 ranks that take no time "
      "in {:.2f} s: {:.1f} us and {:.0f} bytes of messages a point, {:.0f} "
      "points a message\n",
      points, seconds, 1e6 * seconds / points, ranks.bytes() / points,
      points / ranks.messages());
  return seconds / points;
}

/// Who hands out serves one message after the other: n ranks keep busy as long
/// as together they bring no more than it can take.
void print_model(double service, const std::string& what,
                 double seconds_a_point) {
  fmt::print(
      "  {}: {:.2g} s a point: full speed up to {:.0f} ranks; 1,000 ranks at "
      "{:.0f} %\n",
      what, seconds_a_point, seconds_a_point / service,
      100 * std::min(1.0, seconds_a_point / service / 1000));
}

}  // namespace

int main() {
  // What is measured so far is told, however long the rest takes.
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  const tests::Scratch scratch;
  print_pair(scratch, kQuantities, "process", "", "", "--jobs ");
  print_pair(scratch, kGeometries, "process", "", "", "--jobs ");
  if (std::filesystem::exists(kProgram + "-ranks")) {
    const std::string mpirun =
        "OMPI_ALLOW_RUN_AS_ROOT=1 OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1 mpirun -n ";
    print_pair(scratch, kManyQuantities, "rank", mpirun, " ", "");
    print_pair(scratch, kManyGeometries, "rank", mpirun, " ", "");
  }
  const double service = print_service(scratch);
  fmt::print("on paper, by the service time of a point:\n");
  for (const Measured* what : {&kQuantities, &kGeometries, &kRacks})
    print_model(service, what->name,
                seconds_of_run(scratch, "", *what, "--jobs 1") / what->points);
}
