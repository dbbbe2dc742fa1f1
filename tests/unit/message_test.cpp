// Whole messages between processes, or none.
#include "mesh/message.hpp"

#include <catch2/catch.hpp>

#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <string>
#include <thread>

using namespace thinspot;

namespace {

/// Two ends of one line; those left open are closed with it.
class Line {
 public:
  Line() { REQUIRE(::socketpair(AF_UNIX, SOCK_STREAM, 0, ends_.data()) == 0); }
  ~Line() {
    for (int k : {0, 1}) close(k);
  }
  Line(const Line&) = delete;
  Line& operator=(const Line&) = delete;
  int operator[](std::size_t k) const { return ends_[k]; }
  void close(int k) {
    int& end = ends_[static_cast<std::size_t>(k)];
    if (end >= 0) ::close(end);
    end = -1;
  }

 private:
  std::array<int, 2> ends_{-1, -1};
};

}  // namespace

TEST_CASE("messages come one by one as they went") {
  Line line;
  const std::string large(5'000'000, 'x'), odd("a\0b", 3);
  std::jthread sender([&] {
    for (const std::string& text : {std::string(), odd, large, odd})
      if (!mesh::send_message(line[0], text)) return;
  });
  CHECK(mesh::receive_message(line[1]) == std::string());
  CHECK(mesh::receive_message(line[1]) == odd);
  CHECK((mesh::receive_message(line[1]) == large));
  CHECK(mesh::receive_message(line[1]) == odd);
}

TEST_CASE("where the other end is gone there is no message") {
  Line line;
  line.close(0);
  CHECK_FALSE(mesh::receive_message(line[1]));
  // No signal ends who sends.
  CHECK_FALSE(mesh::send_message(line[1], std::string(1'000'000, 'x')));
}

TEST_CASE("a message that is cut short is none") {
  for (const std::size_t sent : {1u, 7u, 8u, 12u}) {
    CAPTURE(sent);
    // Ten bytes, or by its word more than any memory has.
    for (const std::uint64_t told : {std::uint64_t{10}, UINT64_MAX}) {
      std::string bytes(reinterpret_cast<const char*>(&told), sizeof told);
      bytes += "12345";
      Line line;
      REQUIRE(::send(line[0], bytes.data(), sent, 0) ==
              static_cast<ssize_t>(sent));
      line.close(0);
      CHECK_FALSE(mesh::receive_message(line[1]));
    }
  }
}
