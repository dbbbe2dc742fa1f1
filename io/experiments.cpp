#include "io/experiments.hpp"

#include "io/case_file.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Reading;

/// Farther from the part's surface a place was mistaken [m].
constexpr double kNear = 2e-3;

[[noreturn]] void refuse(const Reading& r, const std::string& file,
                         std::string wrong, std::string mend) {
  throw InputError({{"at", std::move(wrong), std::move(mend),
                     fmt::format("{}:{}", file, r.line)}});
}

void check_probe(const Reading& r, const solver::Case& c,
                 const std::string& file) {
  std::vector<std::string> names;
  for (const solver::Probe& p : c.probes) names.push_back(p.name);
  if (std::find(names.begin(), names.end(), r.at) != names.end()) return;
  const auto near = nearest(r.at, names);
  refuse(r, file, in_quotes(r.at) + " is no probe of the case",
         near            ? fmt::format("is \"{}\" meant?", *near)
         : names.empty() ? "\"x, y\" in quotes, thinnest, heaviest or mean"
                         : with_or(names));
}

void check_point(const Reading& r, const solver::Case& c,
                 const std::string& file) {
  const mesh::Section drawn = mesh::build_as_drawn(c.section);
  for (const mesh::PlacedSolid& s : drawn.solids) {
    if (s.spec.role != mesh::Role::part) continue;
    const double off = mesh::nearest(s.outline, r.point).distance;
    if (off <= kNear) return;
    refuse(r, file,
           fmt::format("{} is {:.3g} mm away from the part's surface",
                       in_quotes(r.at), to_mm(off)),
           "a place on the surface, as the case file has it");
  }
}

/// The case as it stood when this was read.
solver::Case content_for(const DrawnCase& drawn, const Reading& r,
                         const std::string& file) {
  if (r.with.empty()) return drawn.content;
  std::vector<std::string> overrides = drawn.overrides;
  overrides.insert(overrides.end(), r.with.begin(), r.with.end());
  try {
    return read_case(drawn.file, overrides).content;
  } catch (const InputError& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& p : problems) p.place = fmt::format("{}:{}", file, r.line);
    throw InputError(std::move(problems));
  }
}

}  // namespace

std::vector<solver::Experiment> experiments_of(
    const DrawnCase& drawn, const std::vector<Reading>& readings,
    const std::string& file) {
  std::vector<solver::Experiment> all;
  for (const Reading& r : readings) {
    auto found = std::find_if(all.begin(), all.end(), [&](const auto& e) {
      return e.readings.front().with == r.with;
    });
    if (found == all.end()) {
      all.push_back({content_for(drawn, r, file), {}});
      found = all.end() - 1;
    }
    if (r.where == Reading::Where::probe) check_probe(r, found->content, file);
    if (r.where == Reading::Where::point) check_point(r, found->content, file);
    found->readings.push_back(r);
  }
  return all;
}

}  // namespace thinspot::io
