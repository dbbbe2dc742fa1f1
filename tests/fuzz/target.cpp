#include "tests/fuzz/target.hpp"

#include "io/quote.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace thinspot::fuzz {

namespace {

/// Characters; a line that quotes a key and a value has a few hundred.
constexpr std::size_t kLongestLine = 1000;

void require_line(const std::string& text, std::string_view what) {
  if (!io::is_printable(text, kLongestLine))
    std::fprintf(stderr, "the text: %s\n", text.c_str());
  require(io::is_printable(text, kLongestLine), what);
}

}  // namespace

void require(bool holds, std::string_view what) {
  if (holds) return;
  std::fprintf(stderr, "a finding, this does not hold: %.*s\n",
               static_cast<int>(what.size()), what.data());
  std::abort();
}

void require_clear(const InputError& error) {
  require(!error.problems().empty(), "a refusal has problems");
  for (const Problem& p : error.problems()) {
    require_line(p.wrong, "what is wrong is a printable line");
    require_line(p.mend, "what would be right is a printable line");
    if (!p.key.empty()) require_line(p.key, "a key is a printable line");
    if (!p.place.empty()) require_line(p.place, "a place is a printable line");
  }
}

void require_sound(const mesh::Outline& outline) {
  require(!outline.loops.empty(), "an outline has loops");
  std::size_t pieces = 0;
  for (const mesh::Loop& loop : outline.loops) {
    require(!loop.empty(), "a loop has curves");
    pieces += loop.size();
    for (std::size_t k = 0; k < loop.size(); ++k) {
      const mesh::Curve& c = loop[k];
      require(c.from.allFinite() && c.to.allFinite(), "points are finite");
      require(std::abs(c.bulge) <= 1 + 1e-9, "an arc is half a circle at most");
      require(c.to == loop[(k + 1) % loop.size()].from, "a loop is closed");
    }
  }
  require(pieces <= static_cast<std::size_t>(mesh::kMostPieces),
          "pieces are not too many");
  // Others are refused for their size, where a solid is made of them.
  const mesh::Point size = mesh::bounding_box(outline).size();
  if (size.minCoeff() >= 1e-6 && size.maxCoeff() <= 10)
    require(mesh::area(outline) > 0, "an outline encloses something");
}

void require_sound(const mesh::DrawnOutline& drawn) {
  require_sound(drawn.outline);
  for (const mesh::Loop& loop : drawn.outline.loops)
    for (const mesh::Curve& c : loop)
      require_line(c.face, "a face has a printable name");
  for (const std::string& note : drawn.notes)
    require_line(note, "a note is a printable line");
}

Chosen chosen(std::string_view bytes, std::size_t ways) {
  if (bytes.empty()) return {};
  const auto way = static_cast<unsigned char>(bytes.front() - 'a');
  return {way % ways, bytes.substr(1)};
}

std::string tree_file(const std::string& name) {
  std::ifstream in(std::string(THINSPOT_SOURCE_DIR "/") + name,
                   std::ios::binary);
  require(in.good(), "a file of the tree is there");
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

}  // namespace thinspot::fuzz
