// What goes to the geometry kernel and comes back, or is kept of it: what is
// read is what the bytes say, and it names only what there is.
#include "mesh/kept_answers.hpp"
#include "mesh/kernel.hpp"
#include "tests/fuzz/target.hpp"

#include <array>

namespace thinspot::fuzz {

namespace {

constexpr std::size_t kPieces = 3;

/// A square and one in it.
std::vector<mesh::Outline> outlines() {
  std::vector<mesh::Outline> all;
  for (const double a : {4.0, 1.0})
    all.push_back({{{{{-a, -a}, {a, -a}, 0, "", false},
                     {{a, -a}, {a, a}, 0, "", false},
                     {{a, a}, {-a, a}, 0, "", false},
                     {{-a, a}, {-a, -a}, 0, "", false}}}});
  return all;
}

using Again = std::string (*)(const std::string& bytes);

constexpr std::array<Again, 5> kAll{
    [](const std::string& b) { return packed(mesh::unpacked_mesh_request(b)); },
    [](const std::string& b) {
      return packed(mesh::unpacked_mesh_answer(b, kPieces));
    },
    [](const std::string& b) { return packed(mesh::unpacked_outlines(b)); },
    [](const std::string& b) {
      return packed(mesh::unpacked_cut(b, outlines()));
    },
    [](const std::string& b) {
      const auto answer = mesh::answer_in(b, "question");
      if (!answer) throw NoResultError("nothing kept");
      return mesh::kept_bytes("question", *answer);
    }};

}  // namespace

bool one_input(std::string_view bytes) {
  const Chosen input = chosen(bytes, kAll.size());
  const std::string text(input.rest);
  try {
    const std::string said = kAll[input.way](text);
    require(text.starts_with(said), "what was read is what the bytes say");
    require(kAll[input.way](said) == said, "it is read as it was written");
  } catch (const NoResultError& error) {
    require(*error.what() != '\0', "a refusal says something");
  }
  return true;
}

}  // namespace thinspot::fuzz
