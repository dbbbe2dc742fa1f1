#include "io/sweep_answer.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"

namespace thinspot::io {

namespace {

/// Of an answer without words and outputs.
constexpr std::size_t kLeastBytes =
    sizeof(std::uint64_t) + 1 + 2 * sizeof(std::size_t);

}  // namespace

std::string status_name(SweepAnswer::Status status) {
  switch (status) {
    case SweepAnswer::Status::done: return "done";
    case SweepAnswer::Status::refused: return "refused";
    case SweepAnswer::Status::no_result: return "no result";
    case SweepAnswer::Status::lost: return "lost";
  }
  return "";
}

SweepAnswer::Status status_of(const std::string& name) {
  using Status = SweepAnswer::Status;
  for (const Status s : {Status::done, Status::refused, Status::lost})
    if (status_name(s) == name) return s;
  return Status::no_result;
}

std::string to_bytes(const std::vector<SweepAnswer>& answers) {
  mesh::Bytes out;
  out.put(answers.size());
  for (const SweepAnswer& a : answers) {
    out.put(a.point);
    out.put(a.status);
    out.put_text(a.words);
    out.put_all(a.outputs);
  }
  return out.text();
}

std::vector<SweepAnswer> sweep_answers(const std::string& bytes) {
  mesh::Bytes in(bytes);
  std::vector<SweepAnswer> answers;
  for (auto n = in.take_count(kLeastBytes); n > 0; --n) {
    SweepAnswer& a = answers.emplace_back();
    a.point = in.take<std::uint64_t>();
    a.status = in.take<SweepAnswer::Status>();
    if (a.status > SweepAnswer::Status::lost)
      throw NoResultError("what another process sent is no answer");
    a.words = in.take_text();
    a.outputs = in.take_all<double>();
  }
  return answers;
}

}  // namespace thinspot::io
