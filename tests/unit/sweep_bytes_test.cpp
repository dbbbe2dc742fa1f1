// What goes between the processes of a sweep comes back as it went.
#include "io/sweep_answer.hpp"
#include "io/sweep_crew.hpp"
#include "io/sweep_request.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <limits>
#include <string>

using namespace thinspot;
using Status = io::SweepAnswer::Status;

namespace {

const std::string kOdd("a\nb\0c\"\xff", 7);

io::SweepRequest some_request() {
  io::SweepRequest r;
  r.file = "a folder/case.toml";
  r.text = kOdd + std::string(300'000, 'x');
  r.drawings = "12";
  r.overrides = {"a=1", "", kOdd};
  r.vary = {"k=1,2"};
  r.sample = 1'000'000;
  r.seed = std::numeric_limits<std::uint64_t>::max();
  r.sobol = true;
  r.bands = true;
  r.longest = 77;
  return r;
}

std::vector<io::SweepAnswer> some_answers() {
  return {{9'999'999,
           Status::done,
           "current",
           {1.5, -0.0, std::numeric_limits<double>::denorm_min(),
            std::numeric_limits<double>::quiet_NaN()}},
          {0, Status::lost, kOdd, {}},
          {7, Status::refused, "", {}}};
}

void check_same(const std::vector<io::SweepAnswer>& a,
                const std::vector<io::SweepAnswer>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t k = 0; k < a.size(); ++k) {
    CHECK(a[k].point == b[k].point);
    CHECK(a[k].status == b[k].status);
    CHECK(a[k].words == b[k].words);
    REQUIRE(a[k].outputs.size() == b[k].outputs.size());
    for (std::size_t n = 0; n < a[k].outputs.size(); ++n) {
      const double x = a[k].outputs[n], y = b[k].outputs[n];
      CHECK((x == y || (std::isnan(x) && std::isnan(y))));
      CHECK(std::signbit(x) == std::signbit(y));
    }
  }
}

/// Cut short anywhere it says so.
void check_cuts(const std::string& bytes,
                const std::function<void(const std::string&)>& read) {
  const std::size_t step = std::max<std::size_t>(1, bytes.size() / 500);
  for (std::size_t size = 0; size < bytes.size(); size += step) {
    CAPTURE(size);
    CHECK_THROWS_AS(read(bytes.substr(0, size)), NoResultError);
  }
  CHECK_THROWS_AS(read(bytes.substr(0, bytes.size() - 1)), NoResultError);
  CHECK_NOTHROW(read(bytes));
  // A length that is none.
  CHECK_THROWS_AS(read(std::string(bytes.size(), '\x7f')), NoResultError);
}

}  // namespace

TEST_CASE("a request comes back as it went", "[sweep]") {
  const io::SweepRequest sent = some_request();
  const std::string bytes = io::to_bytes(sent);
  CHECK(io::sweep_request(bytes) == sent);
  CHECK(io::sweep_request(io::to_bytes(io::SweepRequest{})) ==
        io::SweepRequest{});
  check_cuts(bytes, [](const std::string& b) { io::sweep_request(b); });
}

TEST_CASE("answers come back as they went", "[sweep]") {
  const std::string bytes = io::to_bytes(some_answers());
  check_same(io::sweep_answers(bytes), some_answers());
  CHECK(
      io::sweep_answers(io::to_bytes(std::vector<io::SweepAnswer>{})).empty());
  check_cuts(bytes, [](const std::string& b) { io::sweep_answers(b); });
}

TEST_CASE("news come back as they went, from who sent them", "[sweep]") {
  for (const bool finished : {false, true}) {
    io::SweepNews sent;
    sent.worker = 3;
    sent.answers = some_answers();
    sent.finished = finished;
    sent.gone = !finished;
    const std::string bytes = io::to_bytes(sent);
    const io::SweepNews news = io::sweep_news(bytes, 5);
    CHECK(news.worker == 5);
    CHECK(news.finished == finished);
    CHECK(news.gone == !finished);
    check_same(news.answers, sent.answers);
    check_cuts(bytes, [](const std::string& b) { io::sweep_news(b, 0); });
  }
}

TEST_CASE("a status has a name of its own", "[sweep]") {
  for (const Status s :
       {Status::done, Status::refused, Status::no_result, Status::lost})
    CHECK(io::status_of(io::status_name(s)) == s);
  CHECK(io::status_name(Status::no_result) == "no result");
  CHECK(io::status_of("what") == Status::no_result);
}
