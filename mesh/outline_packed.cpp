#include "mesh/outline_packed.hpp"

#include <fmt/format.h>

#include <sstream>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Numbers by their bits, one after the other.
std::string packed(const Curve& c) {
  std::string text;
  for (double x : {c.from.x(), c.from.y(), c.to.x(), c.to.y(), c.bulge})
    text.append(reinterpret_cast<const char*>(&x), sizeof x);
  return text;
}

Curve read_curve(std::istream& in) {
  double x[5];
  in.read(reinterpret_cast<char*>(x), sizeof x);
  return {{x[0], x[1]}, {x[2], x[3]}, x[4], ""};
}

std::string rest_of_line(std::istream& in) {
  std::string line;
  std::getline(in, line);
  return line;
}

}  // namespace

std::string packed(const Drawing& drawing) {
  std::string text;
  if (drawing.metres_per_unit)
    text += fmt::format("u{}\n", *drawing.metres_per_unit);
  for (const std::string& note : drawing.notes) text += "n" + note + "\n";
  for (const std::vector<Curve>& set : drawing.sets) {
    text += "s";
    for (const Curve& c : set) text += "c" + packed(c);
  }
  return text;
}

std::string packed(const Problem& problem) {
  return "p" + problem.wrong + "\n" + problem.mend + "\n";
}

Drawing unpacked(const std::string& text) {
  Drawing drawing;
  std::istringstream in(text);
  in.imbue(std::locale::classic());
  for (char kind = 0; in.get(kind);) {
    if (kind == 'u') drawing.metres_per_unit = std::stod(rest_of_line(in));
    if (kind == 'n') drawing.notes.push_back(rest_of_line(in));
    if (kind == 's') drawing.sets.emplace_back();
    if (kind == 'c') drawing.add(read_curve(in));
    if (kind == 'p') {
      std::string wrong = rest_of_line(in);
      throw InputError("file", std::move(wrong), rest_of_line(in));
    }
  }
  return drawing;
}

}  // namespace thinspot::mesh
