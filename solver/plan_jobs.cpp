#include "solver/plan_jobs.hpp"

#include "mesh/child_process.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <string>
#include <system_error>
#include <thread>
#include <type_traits>

namespace thinspot::solver {

namespace {

/// More do not help a search of some dozen jobs [processes].
constexpr unsigned kMostWorkers = 8;
/// After which a job has hung [s].
constexpr unsigned kLongest = 900;

static_assert(std::is_trivially_copyable_v<Trial>);

}  // namespace

struct Jobs::Workers {
  std::vector<std::unique_ptr<mesh::Child>> each;
};

Jobs::Jobs(Work work) : workers_(std::make_unique<Workers>()) {
  const auto there =
      [work = std::move(work)](const std::string& request) -> std::string {
    if (request.empty()) return "";
    mesh::Bytes in(request);
    Job job;
    job.structure = in.take<std::size_t>();
    job.schedule = in.take<std::size_t>();
    job.start = in.take_all<double>();
    const Answer answer = work(job);
    mesh::Bytes out;
    out.put(answer.trial);
    out.put_all(answer.at);
    out.put(answer.layouts);
    out.put(answer.candidates);
    return out.text();
  };
  const unsigned count =
      std::clamp(std::thread::hardware_concurrency(), 1u, kMostWorkers);
  for (unsigned k = 0; k < count; ++k) {
    workers_->each.push_back(
        std::make_unique<mesh::Child>(there, "the search", kLongest));
    // Started here: one that a thread starts has that thread's memory pool,
    // which gives back and fetches anew with every mesh (measured: 2.5 times
    // as long).
    workers_->each.back()->ask("");
  }
}

Jobs::~Jobs() = default;

std::vector<Answer> Jobs::run(const std::vector<Job>& jobs,
                              const Progress& progress) {
  std::vector<Answer> answers(jobs.size());
  std::mutex one;
  std::size_t next = 0, done = 0;
  std::exception_ptr failed;
  const auto work = [&](mesh::Child& child) {
    for (;;) {
      std::size_t k = 0;
      {
        const std::lock_guard lock(one);
        if (next == jobs.size() || failed) return;
        k = next++;
      }
      try {
        mesh::Bytes request;
        request.put(jobs[k].structure);
        request.put(jobs[k].schedule);
        request.put_all(jobs[k].start);
        mesh::Bytes answer(child.ask(request.text()));
        answers[k].trial = answer.take<Trial>();
        answers[k].at = answer.take_all<double>();
        answers[k].layouts = answer.take<int>();
        answers[k].candidates = answer.take<int>();
      } catch (...) {
        const std::lock_guard lock(one);
        failed = std::current_exception();
        return;
      }
      const std::lock_guard lock(one);
      progress.at(static_cast<double>(++done) /
                  static_cast<double>(jobs.size()));
    }
  };
  std::vector<std::thread> threads;
  for (auto& child : workers_->each) try {
      threads.emplace_back([&work, &child] { work(*child); });
    } catch (const std::system_error&) {
      break;  // no more threads to be had: those that are there do it
    }
  if (threads.empty()) work(*workers_->each.front());
  for (std::thread& t : threads) t.join();
  if (failed) std::rethrow_exception(failed);
  return answers;
}

}  // namespace thinspot::solver
