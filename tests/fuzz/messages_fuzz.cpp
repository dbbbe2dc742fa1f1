// Bytes from another process of ours: what is read of them is what they say,
// and where they are cut short or garbled it is said.
#include "io/cli/window_packet.hpp"
#include "io/sweep_answer.hpp"
#include "io/sweep_crew.hpp"
#include "io/sweep_request.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/size_field.hpp"
#include "tests/fuzz/target.hpp"
#include "viz/result_parsing.hpp"

#include <array>

namespace thinspot::fuzz {

namespace {

/// Reads them, and writes what was read.
using Again = std::string (*)(const std::string& bytes);

std::string size_field(const std::string& bytes) {
  mesh::Bytes in(bytes), out;
  mesh::SizeField::unpacked(in).pack(out);
  return out.text();
}

std::string points(const std::string& bytes) {
  mesh::Bytes in(bytes), out;
  out.put_all(in.take_all<std::uint64_t>());
  return out.text();
}

constexpr std::array<Again, 9> kAll{
    [](const std::string& b) { return to_bytes(io::sweep_request(b)); },
    [](const std::string& b) { return to_bytes(io::sweep_news(b, 0)); },
    [](const std::string& b) { return to_bytes(io::sweep_answers(b)); },
    [](const std::string& b) { return to_bytes(viz::collection_from(b)); },
    [](const std::string& b) { return to_bytes(viz::surface_from(b)); },
    [](const std::string& b) { return to_bytes(viz::liquid_from(b)); },
    size_field,
    points,
    [](const std::string& b) { return to_bytes(io::cli::packet_from(b)); }};

}  // namespace

bool one_input(std::string_view bytes) {
  const Chosen input = chosen(bytes, kAll.size());
  const Again again = kAll[input.way];
  const std::string text(input.rest);
  try {
    const std::string said = again(text);
    // The files of a packet are put in order, and news hold a text of which
    // the rest may be anything.
    const bool as_it_came = input.way != 8 && input.way != 1;
    require(!as_it_came || text.starts_with(said),
            "what was read is what the bytes say");
    require(again(said) == said, "what was written is read as it was");
  } catch (const NoResultError& error) {
    require(*error.what() != '\0', "a refusal says something");
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
