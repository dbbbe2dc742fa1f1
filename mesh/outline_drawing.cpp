#include "mesh/outline_drawing.hpp"

#include "mesh/errors.hpp"
#include "mesh/outline.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::mesh {

namespace {

/// An arc with less bulge is its chord: it leaves it by half a millionth of its
/// length, and what is told from its centre would be no more exact.
constexpr double kStraight = 1e-6;

/// Bytes of the UTF-8 character at the front of the text; 0 where it is none.
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t k) {
    return static_cast<unsigned char>(text[k]);
  };
  const unsigned char lead = byte(0);
  std::size_t n = 0;
  if (lead < 0x80) n = 1;
  if (lead >= 0xC2 && lead < 0xE0) n = 2;
  if (lead >= 0xE0 && lead < 0xF0) n = 3;
  if (lead >= 0xF0 && lead < 0xF5) n = 4;
  if (n > text.size()) return 0;
  for (std::size_t k = 1; k < n; ++k)
    if ((byte(k) & 0xC0) != 0x80) return 0;
  // Overlong forms, surrogates, beyond the last character.
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F) ||
      (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F))
    return 0;
  return n;
}

/// @pre a character
bool is_control(std::string_view utf8) {
  const auto lead = static_cast<unsigned char>(utf8[0]);
  if (utf8.size() == 1) return lead < 0x20 || lead == 0x7F;
  return lead == 0xC2 && static_cast<unsigned char>(utf8[1]) < 0xA0;
}

}  // namespace

void Drawing::add(const Curve& piece) {
  if (!piece.from.allFinite() || !piece.to.allFinite() ||
      !std::isfinite(piece.bulge))
    throw InputError("file", "holds a number that is not finite",
                     "finite coordinates");
  if (std::abs(piece.bulge) > 1 + 1e-9) {
    const Point middle = point_at(piece, 0.5);
    const double half = std::tan(std::atan(piece.bulge) / 2);
    add(Curve{piece.from, middle, half, piece.face});
    add(Curve{middle, piece.to, half, piece.face});
    return;
  }
  if (++pieces_ > kMostPieces)
    throw InputError(
        "file", fmt::format("has more than {} pieces", kMostPieces),
        "a simpler outline: arcs in place of many short lines, and only what "
        "the section shows");
  if (sets.empty()) sets.emplace_back();
  sets.back().push_back(piece);
  if (std::abs(piece.bulge) < kStraight) sets.back().back().bulge = 0;
}

void Drawing::add(const std::vector<Curve>& pieces) {
  for (const Curve& piece : pieces) add(piece);
}

std::string clean_name(std::string_view raw) {
  std::string name;
  int characters = 0;
  while (!raw.empty() && characters < 60) {
    const auto lead = static_cast<unsigned char>(raw.front());
    const std::size_t n = utf8_length(raw);
    if (n == 0) {
      // Latin-1 and Unicode number these characters alike; 0x80 to 0x9F are
      // control characters there.
      if (lead >= 0xA0) {
        name += static_cast<char>(0xC0 | (lead >> 6));
        name += static_cast<char>(0x80 | (lead & 0x3F));
        ++characters;
      }
    } else if (!is_control(raw.substr(0, n))) {
      name += raw.substr(0, n);
      ++characters;
    }
    raw.remove_prefix(n == 0 ? 1 : n);
  }
  return name;
}

}  // namespace thinspot::mesh
