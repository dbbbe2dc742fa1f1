#include "io/sweep_ranks.hpp"

#include "mesh/child_process.hpp"

#include <mpi.h>

#include <chrono>
#include <thread>
#include <utility>

namespace thinspot::io {

namespace {

using Clock = std::chrono::steady_clock;

/// What a message is, by its tag.
constexpr int kRequest = 1, kPoints = 2, kNews = 3, kStop = 4, kBye = 5;

/// Between two looks for messages a rank waits so long for its own process.
constexpr int kLook = 1;  // ms

/// A message that has come.
struct Message {
  int from = 0, tag = 0;
  std::string bytes;
};

std::optional<Message> come() {
  int there = 0;
  MPI_Status status;
  MPI_Iprobe(MPI_ANY_SOURCE, MPI_ANY_TAG, MPI_COMM_WORLD, &there, &status);
  if (!there) return {};
  int size = 0;
  MPI_Get_count(&status, MPI_BYTE, &size);
  Message m{status.MPI_SOURCE, status.MPI_TAG,
            std::string(static_cast<std::size_t>(size), '\0')};
  MPI_Recv(m.bytes.data(), size, MPI_BYTE, m.from, m.tag, MPI_COMM_WORLD,
           MPI_STATUS_IGNORE);
  return m;
}

std::string points_bytes(const std::vector<std::uint64_t>& points) {
  mesh::Bytes out;
  out.put_all(points);
  return out.text();
}

}  // namespace

struct SweepRanks::Sending {
  std::string bytes;
  MPI_Request request = MPI_REQUEST_NULL;
};

SweepRanks::SweepRanks(SweepCrew& own) : own_(own) {
  MPI_Init(nullptr, nullptr);
  MPI_Comm_rank(MPI_COMM_WORLD, &rank_);
  MPI_Comm_size(MPI_COMM_WORLD, &size_);
}

SweepRanks::~SweepRanks() {
  if (leads()) {
    for (int rank = 1; rank < size_; ++rank) send(rank, kStop, "");
    // What they still send is taken, so that they get rid of it and can end.
    for (int here = 1; here < size_;)
      if (const auto message = come())
        here += message->tag == kBye;
      else
        std::this_thread::sleep_for(std::chrono::milliseconds(kLook));
  } else {
    send(0, kBye, "");
  }
  for (const auto& s : sending_) MPI_Wait(&s->request, MPI_STATUS_IGNORE);
  MPI_Finalize();
}

void SweepRanks::send(int to, int tag, std::string bytes) {
  auto s = std::make_unique<Sending>();
  s->bytes = std::move(bytes);
  MPI_Isend(s->bytes.data(), static_cast<int>(s->bytes.size()), MPI_BYTE, to,
            tag, MPI_COMM_WORLD, &s->request);
  sending_.push_back(std::move(s));
  clear_sent();
}

void SweepRanks::clear_sent() {
  while (!sending_.empty()) {
    int done = 0;
    MPI_Test(&sending_.front()->request, &done, MPI_STATUS_IGNORE);
    if (!done) break;
    sending_.pop_front();
  }
}

void SweepRanks::begin(const SweepRequest& request) {
  for (int rank = 1; rank < size_; ++rank)
    send(rank, kRequest, to_bytes(request));
  own_.begin(request);
}

void SweepRanks::give(std::size_t worker,
                      const std::vector<std::uint64_t>& points) {
  if (worker == 0)
    own_.give(0, points);
  else
    send(static_cast<int>(worker), kPoints, points_bytes(points));
}

std::optional<SweepNews> SweepRanks::wait(int milliseconds) {
  const auto end = Clock::now() + std::chrono::milliseconds(milliseconds);
  do {
    clear_sent();
    if (const auto message = come())
      return sweep_news(message->bytes,
                        static_cast<std::size_t>(message->from));
    if (auto news = own_.wait(kLook)) return news;
  } while (Clock::now() < end);
  return {};
}

void SweepRanks::serve() {
  for (;;) {
    clear_sent();
    if (const auto message = come()) {
      if (message->tag == kStop) return;
      if (message->tag == kRequest) {
        own_.begin(sweep_request(message->bytes));
      } else {
        mesh::Bytes in(message->bytes);
        own_.give(0, in.take_all<std::uint64_t>());
      }
      continue;
    }
    if (const auto news = own_.wait(kLook)) send(0, kNews, to_bytes(*news));
  }
}

}  // namespace thinspot::io
