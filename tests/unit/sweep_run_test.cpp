// Processes that compute a sweep: whoever does, the same comes of it, and
// whatever ends one of them loses nothing.
#include "io/sweep_run.hpp"
#include "tests/scratch.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <catch2/catch.hpp>

#include <signal.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Status = io::SweepAnswer::Status;

namespace {

/// Six points of two geometries, coarse and quick.
io::SweepRequest tiny(std::vector<std::string> vary = {
                          "anode.sheet.gap=30 mm,35 mm",
                          "supply.current=0.2 A,0.3 A,0.4 A"}) {
  io::SweepRequest r = request_of(std::move(vary));
  r.overrides = {"accuracy.tolerance=5 %", "accuracy.averaging_length=1 mm"};
  return r;
}

std::vector<io::SweepRow> rows_of(const io::SweepStore& store) {
  std::vector<io::SweepRow> rows;
  store.for_each([&](const io::SweepRow& row) { rows.push_back(row); });
  return rows;
}

std::vector<io::SweepRow> computed(const io::SweepRequest& request,
                                   std::size_t workers) {
  const Scratch folder;
  io::SweepCrew crew(workers);
  CHECK(crew.count() == workers);
  const io::Sweep sweep(request);
  io::SweepStore store(folder / "s", sweep);
  CHECK(io::run_sweep(sweep, crew, store, {}) == sweep.size());
  return rows_of(store);
}

bool same(const std::vector<double>& a, const std::vector<double>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](double x, double y) {
                      return x == y || (std::isnan(x) && std::isnan(y));
                    });
}

void check_same(const std::vector<io::SweepRow>& a,
                const std::vector<io::SweepRow>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t k = 0; k < a.size(); ++k) {
    CAPTURE(k);
    CHECK(a[k].point == b[k].point);
    CHECK(a[k].status == b[k].status);
    CHECK(a[k].message == b[k].message);
    CHECK(a[k].limited_by == b[k].limited_by);
    CHECK(same(a[k].outputs, b[k].outputs));
  }
}

/// The crew, with something done after so many pieces of news.
class Watched : public io::SweepWorkers {
 public:
  Watched(io::SweepCrew& crew, std::function<void(int)> at_news)
      : crew_(crew), at_news_(std::move(at_news)) {}
  std::size_t count() const override { return crew_.count(); }
  void begin(const io::SweepRequest& request) override {
    crew_.begin(request);
    at_news_(0);
  }
  void give(std::size_t worker,
            const std::vector<std::uint64_t>& points) override {
    crew_.give(worker, points);
  }
  std::optional<io::SweepNews> wait(int milliseconds) override {
    auto news = crew_.wait(milliseconds);
    if (news) at_news_(++count_);
    return news;
  }

 private:
  io::SweepCrew& crew_;
  std::function<void(int)> at_news_;
  int count_ = 0;
};

/// Workers that are none: what comes of each is made up.
class MadeUp : public io::SweepWorkers {
 public:
  explicit MadeUp(std::size_t count) : waiting_(count) {}
  std::size_t count() const override { return waiting_.size(); }
  void begin(const io::SweepRequest&) override {}
  void give(std::size_t worker,
            const std::vector<std::uint64_t>& points) override {
    waiting_[worker].push_back(points);
    given.insert(given.end(), points.begin(), points.end());
  }
  std::optional<io::SweepNews> wait(int) override {
    for (std::size_t n = 0; n < waiting_.size(); ++n) {
      const std::size_t k = next_++ % waiting_.size();
      if (waiting_[k].empty()) continue;
      io::SweepNews news;
      news.worker = k;
      const auto points = waiting_[k].front();
      news.gone = ends && ends(k, points);
      if (news.gone) {
        waiting_[k].clear();
        return news;
      }
      waiting_[k].erase(waiting_[k].begin());
      for (const std::uint64_t point : points)
        news.answers.push_back({point, Status::no_result, "made up", {}});
      news.finished = true;
      return news;
    }
    return std::nullopt;
  }

  std::vector<std::uint64_t> given;
  /// Whether a worker ends over these points.
  std::function<bool(std::size_t, const std::vector<std::uint64_t>&)> ends;

 private:
  std::vector<std::vector<std::vector<std::uint64_t>>> waiting_;
  std::size_t next_ = 0;
};

}  // namespace

TEST_CASE("one, two or three compute the same", "[sweep][run]") {
  const auto one = computed(tiny(), 1);
  REQUIRE(one.size() == 6);
  for (const io::SweepRow& row : one) {
    CHECK(row.status == Status::done);
    CHECK(row.limited_by == "current");
    CHECK(row.outputs.front() ==
          Approx(0.2 + 0.1 * static_cast<double>(row.point % 3)));
  }
  check_same(one, computed(tiny(), 2));
  check_same(one, computed(tiny(), 3));
  // Whatever the order of keys and values.
  const auto other = computed(
      tiny({"supply.current=0.4 A,0.2 A,0.3 A", "anode.sheet.gap=35 mm,30 mm"}),
      1);
  REQUIRE(other.size() == 6);
  CHECK(same(other[0].outputs, one[5].outputs));
  CHECK(same(other[3].outputs, one[0].outputs));
}

TEST_CASE("who is ended from outside loses nothing", "[sweep][run]") {
  const io::SweepRequest request = tiny(
      {"anode.sheet.gap=30 mm,32 mm,35 mm", "supply.current=0.2 A..0.4 A:4"});
  const auto wanted = computed(request, 2);
  for (const int at : {0, 1, 2}) {
    CAPTURE(at);
    const Scratch folder;
    io::SweepCrew crew(2);
    Watched watched(crew, [&](int news) {
      if (news == at) CHECK(::kill(crew.process(0), SIGKILL) == 0);
    });
    const io::Sweep sweep(request);
    io::SweepStore store(folder / "s", sweep);
    CHECK(io::run_sweep(sweep, watched, store, {}) == 12);
    check_same(rows_of(store), wanted);
  }
}

TEST_CASE("all ended is no result, and goes on from there", "[sweep][run]") {
  const io::SweepRequest request = tiny();
  const auto wanted = computed(request, 1);
  const Scratch folder;
  const io::Sweep sweep(request);
  {
    io::SweepCrew crew(2);
    Watched watched(crew, [&](int news) {
      for (std::size_t k = 0; news == 0 && k < 2; ++k)
        CHECK(::kill(crew.process(k), SIGKILL) == 0);
    });
    io::SweepStore store(folder / "s", sweep);
    // One is done already, and one waits to be written.
    store.begin_run(1);
    store.add({{3, Status::done, wanted[3].limited_by, wanted[3].outputs}});
    store.write();
    store.add({{4, Status::done, wanted[4].limited_by, wanted[4].outputs}});
    CHECK_THROWS_WITH(io::run_sweep(sweep, watched, store, {}),
                      Contains("run the same again"));
    CHECK(rows_of(store).size() == 2);
  }
  io::SweepCrew crew(1);
  io::SweepStore store(folder / "s", sweep);
  CHECK(io::run_sweep(sweep, crew, store, {}) == 4);
  check_same(rows_of(store), wanted);
  // Nothing is left to do.
  CHECK(io::run_sweep(sweep, crew, store, {}) == 0);
}

TEST_CASE("points whose set-up is at fault say so", "[sweep][run]") {
  // A gap that leaves the sheet no room in the tank.
  const auto rows = computed(
      tiny({"anode.sheet.gap=30 mm,80 mm", "supply.current=0.3 A,0.2 A"}), 2);
  REQUIRE(rows.size() == 4);
  for (const std::size_t k : {2u, 3u}) {
    CHECK(rows[k].status == Status::refused);
    CHECK_THAT(rows[k].message, Contains("anode.sheet"));
    CHECK(rows[k].message.find('\n') == std::string::npos);
  }
  CHECK(rows[0].status == Status::done);
  CHECK(rows[1].status == Status::done);
}

TEST_CASE("a point that hangs is lost, and alone is", "[sweep][run]") {
  // A surface that moves in hundreds of steps on a fine mesh takes half a
  // minute, a coarse one a fifth of a second.
  io::SweepRequest request = tiny({"accuracy.tolerance=0.001 %,20 %"});
  request.overrides = {"growth=true", "step.1.duration=400 min",
                       "accuracy.averaging_length=1 mm"};
  request.longest = 2;
  const auto rows = computed(request, 1);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].status == Status::lost);
  CHECK(rows[0].message ==
        "computing it took too long; --again tries it once more, with "
        "--longest for longer");
  CHECK(rows[1].status == Status::done);
}

TEST_CASE("every point is given out once, in groups", "[sweep][run]") {
  for (const std::size_t workers : {1, 2, 3, 7, 40}) {
    CAPTURE(workers);
    const Scratch folder;
    const io::Sweep sweep = sweep_of(
        {"supply.current=0.1 A..1 A:10", "anode.sheet.gap=10 mm..40 mm:31"});
    io::SweepStore store(folder / "s", sweep);
    MadeUp made(workers);
    CHECK(io::run_sweep(sweep, made, store, {}) == 310);
    std::sort(made.given.begin(), made.given.end());
    REQUIRE(made.given.size() == 310);
    for (std::uint64_t k = 0; k < 310; ++k) CHECK(made.given[k] == k);
    CHECK(rows_of(store).size() == 310);
  }
}

TEST_CASE("a point that ends two is lost, all others are not", "[sweep][run]") {
  const Scratch folder;
  const io::Sweep sweep = sweep_of({"supply.current=0.1 A..1 A:50"});
  io::SweepStore store(folder / "s", sweep);
  MadeUp made(4);
  made.ends = [](std::size_t, const std::vector<std::uint64_t>& points) {
    return std::find(points.begin(), points.end(), 17) != points.end();
  };
  CHECK(io::run_sweep(sweep, made, store, {}) == 50);
  const auto rows = rows_of(store);
  REQUIRE(rows.size() == 50);
  for (const io::SweepRow& row : rows)
    CHECK((row.status == Status::lost) == (row.point == 17));
  CHECK_THAT(rows[17].message, Contains("ended from outside"));
}

TEST_CASE("whoever waits has no share in what a crew leaves", "[sweep][run]") {
  // Processes end with the crew, also while they compute.
  pid_t process = 0;
  {
    io::SweepCrew crew(1);
    process = crew.process(0);
    crew.begin(tiny());
    crew.give(0, {0, 1, 2, 3, 4, 5});
    CHECK(::kill(process, 0) == 0);
  }
  CHECK(::kill(process, 0) != 0);
}
