#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace thinspot::io {

/// What came of one point of a sweep.
struct SweepAnswer {
  enum class Status : std::uint8_t {
    done,
    refused,    ///< its set-up is at fault
    no_result,  ///< no trustworthy result came of it
    lost        ///< its process crashed or took too long
  };
  std::uint64_t point = 0;
  Status status = Status::done;
  std::string words;            ///< what limits the supply, or what is wrong
  std::vector<double> outputs;  ///< as sweep_outputs() has them; empty: none
};

/// "done", "refused", "no result", "lost".
std::string status_name(SweepAnswer::Status status);
/// @returns no_result where there is no such name
SweepAnswer::Status status_of(const std::string& name);

std::string to_bytes(const std::vector<SweepAnswer>& answers);
std::vector<SweepAnswer> sweep_answers(const std::string& bytes);

}  // namespace thinspot::io
