#include "mesh/outline.hpp"

#include "mesh/errors.hpp"
#include "mesh/lower_case.hpp"
#include "mesh/outline_chain.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_loops.hpp"
#include "mesh/outline_units.hpp"
#include "mesh/whole_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace thinspot::mesh {

namespace {

namespace fs = std::filesystem;

/// Of the drawing's extent: drawings carry six digits and more, and what is
/// smaller than ten times this, a mesh of the tank cannot show.
constexpr double kJoin = 1e-6;
constexpr double kMillimetre = 1e-3;

/// Of the extent, how far from the origin a drawing may lie: products of
/// coordinates, of which areas are made, are right to 2e-4 of it there.
constexpr double kFarthest = 1e6;

/// The bytes of a regular file that is not too large.
std::string content(const fs::path& file) {
  using Fault = WholeFile::Fault;
  WholeFile whole = read_whole_file(file, kLargestFile);
  switch (whole.fault) {
    case Fault::none: break;
    case Fault::absent:
      throw InputError("file", "is not there",
                       "a file beside the case file, or a whole path with "
                       "--set");
    case Fault::special:
      throw InputError("file", "is not a regular file",
                       "a CSV, DXF, STEP or BREP file");
    case Fault::unreadable:
      throw InputError("file", "cannot be read", "a file that you may read");
    case Fault::changing:
      throw InputError("file", "changes while it is read",
                       "a file that nobody is writing");
    case Fault::too_large:
      throw InputError("file",
                       fmt::format("has {:.3g} MB, which is too large",
                                   1e-6 * double(whole.size)),
                       fmt::format("at most {:.3g} MB: the section alone",
                                   1e-6 * double(kLargestFile)));
  }
  if (whole.bytes.empty())
    throw InputError("file", "is empty", "a file with an outline");
  return std::move(whole.bytes);
}

Drawing read_drawing(const fs::path& file) {
  const std::string extension = lower_case(file.extension().string());
  const bool brep = extension == ".brep";
  const bool step = extension == ".step" || extension == ".stp";
  if (extension != ".csv" && extension != ".dxf" && !brep && !step)
    throw InputError("file",
                     "ends in \"" + clean_name(extension) +
                         "\", which is no kind of drawing known here",
                     "one of .csv, .dxf, .step, .stp, .brep");
  const std::string text = content(file);
  if (extension == ".csv") return read_csv_drawing(text);
  if (extension == ".dxf") return read_dxf_drawing(text);
  check_whole(text, step);
  return read_brep_drawing(file, text, step);
}

/// All ends and middles; without any, the wrong way round.
Box box_of(const Drawing& drawing) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  Point low(inf, inf), high(-inf, -inf);
  for (const auto& set : drawing.sets)
    for (const Curve& c : set)
      for (const Point& p : {c.from, c.to, point_at(c, 0.5)}) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
      }
  return {low, high};
}

Outline scaled(Outline outline, double factor) {
  for (Loop& loop : outline.loops)
    for (Curve& c : loop) {
      c.from *= factor;
      c.to *= factor;
    }
  return outline;
}

}  // namespace

void check_whole(std::string_view text, bool step) {
  text = text.substr(0, text.find_last_not_of(" \t\r\n") + 1);
  const std::string_view start = text.substr(0, 200);
  const std::string_view last =
      text.substr(std::min(text.size(), text.find_last_of("\r\n") + 1));
  const auto has = [&](const char* mark) {
    return start.find(mark) != std::string_view::npos;
  };
  // A BREP ends with its root: a sign, the shape's number, its place.
  const bool begins = step ? has("ISO-10303-21") : has("CASCADE Topology");
  const bool ends = step ? text.ends_with("END-ISO-10303-21;")
                         : last.starts_with('+') || last.starts_with('-');
  const char* kind = step ? "STEP" : "BREP";
  if (!begins)
    throw InputError("file", fmt::format("is not a {} file in text form", kind),
                     "saved anew as such");
  if (!ends)
    throw InputError("file", "is cut short: its end is missing",
                     "a whole file");
}

DrawnOutline outline_of(const Drawing& drawing, const OutlineOptions& options) {
  DrawnOutline result;
  result.notes = drawing.notes;
  const auto metres = options.metres_per_unit ? options.metres_per_unit
                                              : drawing.metres_per_unit;
  result.unit_assumed = !metres;
  const std::string unit = unit_name(metres.value_or(kMillimetre));
  const InputError nothing("file", "holds no outline",
                           "lines, arcs or curves that close");
  const Box box = box_of(drawing);
  const double extent = box.size().maxCoeff();
  if (!(extent > 0) || !std::isfinite(extent)) throw nothing;
  const double away = box.centre().cwiseAbs().maxCoeff();
  if (!(away <= kFarthest * extent))
    throw InputError("file",
                     fmt::format("lies so far from its origin, {:.2g} {} from "
                                 "it, that its shape is lost in rounding",
                                 away, unit),
                     "moved to the origin before it is saved");
  const double join = kJoin * extent;
  std::vector<Loop> loops;
  for (const std::vector<Curve>& set : drawing.sets)
    for (Loop& loop : chain(set, join, unit)) loops.push_back(std::move(loop));
  // Specks far apart: each of them is no longer than what joins.
  if (loops.empty()) throw nothing;
  result.outline = scaled(nest(std::move(loops), join, unit),
                          metres.value_or(kMillimetre) * options.scale);
  return result;
}

DrawnOutline read_outline(const fs::path& file, const OutlineOptions& options) {
  const std::string name = "\"" + clean_name(file.filename().string()) + "\"";
  try {
    return outline_of(read_drawing(file), options);
  } catch (const InputError& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& p : problems)
      p.wrong = name + (p.wrong.starts_with("line ") ? ", " : " ") + p.wrong;
    throw InputError(problems);
  } catch (const std::bad_alloc&) {
    throw InputError("file", name + " needs more memory than there is",
                     "a simpler drawing");
  }
}

}  // namespace thinspot::mesh
