// Threads that hand jobs to processes, and several at one process.
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "solver/plan_jobs.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <string>
#include <thread>
#include <vector>

using namespace thinspot;

namespace {

/// Counts without a lock of its own: reports come one at a time.
class Counting : public solver::ProgressListener {
 public:
  void hear(const solver::Report& report) override {
    ++times;
    last = report.share;
  }
  int times = 0;
  double last = 0;
};

solver::Answer squared(const solver::Job& job) {
  if (job.schedule == 13) throw NoResultError("the thirteenth has no answer");
  solver::Answer answer;
  for (const double x : job.start) answer.at.push_back(x * x);
  answer.layouts = static_cast<int>(job.structure);
  return answer;
}

std::vector<solver::Job> numbered(std::size_t count, std::size_t schedule) {
  std::vector<solver::Job> jobs(count);
  for (std::size_t k = 0; k < count; ++k)
    jobs[k] = {k, schedule, {static_cast<double>(k), 0.5}};
  return jobs;
}

}  // namespace

TEST_CASE("jobs side by side: each answered once, in its place") {
  solver::Jobs jobs(squared);
  for (int round = 0; round < 3; ++round) {
    Counting heard;
    const auto answers = jobs.run(numbered(200, 0), solver::Progress(heard));
    REQUIRE(answers.size() == 200);
    for (std::size_t k = 0; k < answers.size(); ++k) {
      REQUIRE(answers[k].at.size() == 2);
      CHECK(answers[k].at[0] == static_cast<double>(k * k));
      CHECK(answers[k].layouts == static_cast<int>(k));
    }
    CHECK(heard.times == 200);
    CHECK(heard.last == 1);
  }
}

TEST_CASE("a job without an answer ends them all, and the next run works") {
  solver::Jobs jobs(squared);
  std::vector<solver::Job> some = numbered(40, 0);
  some[7].schedule = 13;
  CHECK_THROWS_WITH(jobs.run(some, {}),
                    Catch::Matchers::Contains("the thirteenth"));
  CHECK(jobs.run(numbered(8, 0), {}).size() == 8);
}

TEST_CASE("several threads may ask one process") {
  mesh::Child child([](const std::string& request) { return request + "!"; },
                    "it", 60);
  child.ask("");
  std::atomic<int> right{0};
  std::vector<std::thread> threads;
  for (int k = 0; k < 8; ++k)
    threads.emplace_back([&child, &right, k] {
      for (int n = 0; n < 50; ++n) {
        const std::string asked = std::to_string(100 * k + n);
        right += child.ask(asked) == asked + "!";
      }
    });
  for (std::thread& t : threads) t.join();
  CHECK(right == 400);
}
