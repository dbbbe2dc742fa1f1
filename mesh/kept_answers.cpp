#include "mesh/kept_answers.hpp"

#include "mesh/byte_sum.hpp"
#include "mesh/own_folder.hpp"

#include <fmt/format.h>

#include <cstring>
#include <string_view>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Begins each file; counts up where the format changes.
constexpr std::string_view kMark = "thinspot answer 1\n";

std::string number_bytes(std::uint64_t number) {
  std::string bytes(sizeof number, '\0');
  std::memcpy(bytes.data(), &number, sizeof number);
  return bytes;
}

std::uint64_t take_number(std::string_view& bytes) {
  std::uint64_t number = 0;
  std::memcpy(&number, bytes.data(), sizeof number);
  bytes.remove_prefix(sizeof number);
  return number;
}

/// What is found is compared in full: two requests of one sum put each other
/// out, no more.
std::string name_for(const std::string& request) {
  return fmt::format("{:016x}", byte_sum(request));
}

KeptAnswers& of_kernel() {
  static KeptAnswers answers;
  return answers;
}

}  // namespace

std::string kept_bytes(const std::string& request, const std::string& answer) {
  const std::string content = number_bytes(request.size()) + request + answer;
  return std::string(kMark) + number_bytes(byte_sum(content)) + content;
}

std::optional<std::string> answer_in(const std::string& bytes,
                                     const std::string& request) {
  std::string_view rest = bytes;
  if (!rest.starts_with(kMark)) return {};
  rest.remove_prefix(kMark.size());
  if (rest.size() < 2 * sizeof(std::uint64_t)) return {};
  const std::uint64_t sum = take_number(rest);
  if (sum != byte_sum(rest)) return {};
  if (take_number(rest) != request.size() || !rest.starts_with(request))
    return {};
  return std::string(rest.substr(request.size()));
}

KeptAnswers::KeptAnswers(std::filesystem::path folder, std::uintmax_t most)
    : folder_(std::move(folder)), most_(most) {}

std::optional<std::string> KeptAnswers::find(const std::string& request) const {
  if (folder_.empty()) return {};
  const OwnFolder folder(folder_, OwnFolder::As::it_is);
  const auto bytes = folder.read(name_for(request), most_);
  return bytes ? answer_in(*bytes, request) : std::nullopt;
}

void KeptAnswers::keep(const std::string& request,
                       const std::string& answer) const {
  if (folder_.empty()) return;
  const std::string bytes = kept_bytes(request, answer);
  // One that puts out all others is not worth it.
  if (bytes.size() > most_ / 4) return;
  const OwnFolder folder(folder_, OwnFolder::As::wanted);
  if (folder.write(name_for(request), bytes)) folder.make_room(most_);
}

bool KeptAnswers::is_empty() const {
  return folder_.empty() || OwnFolder(folder_, OwnFolder::As::it_is).is_empty();
}

const KeptAnswers& kernel_answers() { return of_kernel(); }

void keep_kernel_answers(KeptAnswers answers) {
  of_kernel() = std::move(answers);
}

}  // namespace thinspot::mesh
