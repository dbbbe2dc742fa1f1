#include "viz/section_field.hpp"

#include "viz/coating.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr int current_line_count = 18;
constexpr int most_current_lines = 48;
constexpr std::size_t most_shades = 6;

/// 1, 2, 5 times powers of ten between low and high.
std::vector<double> round_levels(double low, double high) {
  std::vector<double> levels;
  if (!(low > 0) || !(high > low)) return levels;
  const int first = static_cast<int>(std::floor(std::log10(low)));
  const int last = static_cast<int>(std::ceil(std::log10(high)));
  for (int power = first; power <= last; ++power)
    for (const double lead : std::array{1.0, 2.0, 5.0}) {
      const double level = lead * std::pow(10.0, power);
      if (level > low && level < high) levels.push_back(level);
    }
  return levels;
}

/// A handful of levels that part the liquid well: round ones over decades, an
/// even scale where the field is nearly uniform.
std::vector<double> shade_levels(const LiquidField& field) {
  const double high = field.current_density_quantile(0.985);
  const double low =
      std::max(field.current_density_quantile(0.04), 1e-3 * high);
  std::vector<double> levels = round_levels(low, high);
  if (levels.size() < 3 && high > 1.02 * low) {
    levels.clear();
    for (const Tick& t : ticks(low, high, 4)) levels.push_back(t.value);
  }
  if (levels.size() > most_shades)
    levels.erase(levels.begin(), levels.end() - most_shades);
  return levels;
}

/// A line ends a step before its electrode: the last piece is put on where it
/// is short.
void reach_electrode(Chain& line, const mesh::Section& section) {
  double nearest =
      0.05 * mesh::bounding_box(section.liquid_bounds).size().norm();
  mesh::Point end = line.back();
  for (const mesh::PlacedSolid& solid : section.solids) {
    // Unconnected metal lets current out on its far side.
    if (solid.spec.role != mesh::Role::anode &&
        solid.spec.role != mesh::Role::floating)
      continue;
    for (const mesh::Loop& loop : solid.outline.loops)
      for (const mesh::Curve& c : loop) {
        const mesh::Foot foot = mesh::nearest(c, line.back());
        if (foot.distance >= nearest) continue;
        nearest = foot.distance;
        end = mesh::point_at(c, foot.t);
      }
  }
  line.push_back(end);
}

/// A seed must lie in the liquid although the mesh's edges are chords.
Chain line_to(const LiquidField& field, const solver::SurfacePoint& s,
              double size) {
  for (const double share : {1e-3, 4e-3, 1.6e-2}) {
    Chain chain = field.upstream(s.at + share * size * s.normal);
    if (chain.size() < 2) continue;
    chain.insert(chain.begin(), s.at);
    return chain;
  }
  return {};
}

}  // namespace

SectionField section_field(const solver::Result& result) {
  const LiquidField field(result);
  SectionField shapes;
  const double low = field.lowest_potential();
  const double high = field.highest_potential();
  // Steps of a rounding error are no voltage.
  if (high - low > 1e-9 * std::max(std::abs(high), std::abs(low))) {
    const std::vector<Tick> levels = ticks(low, high, 10);
    for (const Tick& t : levels)
      shapes.equipotentials.push_back({t.value, field.equipotential(t.value)});
    shapes.volts_apart = nice_step(high - low, 10);
  }
  const std::vector<double> levels = shade_levels(field);
  std::vector<std::vector<Chain>> regions = field.regions_above(levels);
  for (std::size_t k = 0; k < levels.size(); ++k)
    shapes.shades.push_back({levels[k], std::move(regions[k])});

  // A few for each copy on a rack, but never a thicket.
  shapes.line_count = std::clamp(4 * static_cast<int>(result.parts.size()),
                                 current_line_count, most_current_lines);
  for (const PlaceOnPart& place :
       equal_current_points(result, shapes.line_count)) {
    const solver::PartResult& part = result.parts[place.part];
    const double size =
        mesh::bounding_box(result.section.solids[part.solid].outline)
            .size()
            .norm();
    Chain line = line_to(field, part.surface[place.point], size);
    if (line.empty()) continue;
    reach_electrode(line, result.section);
    shapes.current_lines.push_back(std::move(line));
  }
  return shapes;
}

std::string shade_colour(std::size_t k, std::size_t count) {
  const double share =
      count == 0 ? 0 : static_cast<double>(k) / static_cast<double>(count);
  return hex(ramp(0.36 * share));
}

}  // namespace thinspot::viz
