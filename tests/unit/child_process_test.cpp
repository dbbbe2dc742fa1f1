#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

using namespace thinspot;

TEST_CASE("work in a child process: its text, or why there is none") {
  const std::string text =
      mesh::in_child([] { return std::string(300000, 'x'); }, "it", 20);
  CHECK(text.size() == 300000);
  using Catch::Matchers::Contains;
  CHECK_THROWS_WITH(mesh::in_child([]() -> std::string { throw 1; }, "it", 20),
                    Contains("no reason"));
  CHECK_THROWS_WITH(
      mesh::in_child([]() -> std::string { throw std::string("so"); }, "it",
                     20),
      "so");
  CHECK_THROWS_WITH(
      mesh::in_child([]() -> std::string { std::_Exit(3); }, "it", 20),
      "it crashed");
  CHECK_THROWS_WITH(
      mesh::in_child([]() -> std::string { std::abort(); }, "it", 20),
      "it crashed");
  CHECK_THROWS_WITH(mesh::in_child(
                        []() -> std::string {
                          for (;;) ::pause();
                        },
                        "it", 1),
                    "it took too long");
}

TEST_CASE("a child stays for the next request, and another follows it") {
  mesh::Child child(
      [count = 0](const std::string& request) mutable -> std::string {
        if (request == "end") std::_Exit(1);
        if (request == "throw") throw std::string("no");
        return request + std::to_string(++count) + " of " +
               std::to_string(::getpid());
      },
      "it", 20);
  const std::string first = child.ask("a");
  CHECK(first.starts_with("a1 of "));
  const std::string pid = first.substr(2);
  CHECK(pid != " of " + std::to_string(::getpid()));
  CHECK(child.ask("") == "2" + pid);
  CHECK_THROWS_WITH(child.ask("throw"), "no");
  CHECK(child.ask("c") == "c3" + pid);
  CHECK_THROWS_WITH(child.ask("end"), "it crashed");
  const std::string next = child.ask("d");
  CHECK(next.starts_with("d1 of "));
  CHECK(next.substr(2) != pid);
}

TEST_CASE("a process does not ask the child of another") {
  mesh::Child child(
      [](const std::string&) { return std::to_string(::getpid()); }, "it", 20);
  const std::string ours = child.ask("");
  const std::string theirs =
      mesh::in_child([&] { return child.ask(""); }, "another", 20);
  CHECK(theirs != ours);
  CHECK(child.ask("") == ours);
}

TEST_CASE("threads ask a child in turn") {
  mesh::Child child([](const std::string& request) { return request; }, "it",
                    20);
  std::vector<std::string> answers(8);
  {
    std::vector<std::jthread> threads;
    for (std::size_t k = 0; k < answers.size(); ++k)
      threads.emplace_back([&, k] {
        answers[k] = child.ask(std::string(100000, char('a' + k)));
      });
  }
  for (std::size_t k = 0; k < answers.size(); ++k)
    CHECK(answers[k] == std::string(100000, char('a' + k)));
}

TEST_CASE("bytes come back as they went, and no further") {
  mesh::Bytes out;
  out.put(1.5);
  out.put(7);
  mesh::Bytes in(out.text());
  CHECK(in.take<double>() == 1.5);
  CHECK(in.take<int>() == 7);
  CHECK_THROWS_WITH(in.take<char>(), Catch::Matchers::Contains("cut short"));
}

TEST_CASE("garbled bytes are said to be so, and take no memory") {
  mesh::Bytes flags;
  flags.put(char{1});
  flags.put(char{2});
  mesh::Bytes in(flags.text());
  CHECK(in.take_flag());
  CHECK_THROWS_AS(in.take_flag(), NoResultError);

  mesh::Bytes many;
  many.put(std::size_t{1} << 60);
  many.put(1.5);
  CHECK_THROWS_AS(mesh::Bytes(many.text()).take_text(), NoResultError);
  CHECK_THROWS_AS(mesh::Bytes(many.text()).take_all<double>(), NoResultError);
  CHECK_THROWS_AS(mesh::Bytes(many.text()).take_count(1), NoResultError);
}
