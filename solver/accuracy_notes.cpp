#include "solver/accuracy_notes.hpp"

#include "solver/place_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::solver {

namespace {

constexpr std::size_t kMostNamed = 3;

/// A corner of a part whose polarization does not reach as far as the averages
/// do: what bounds the current density there is below what is looked at.
bool unbounded(const Certified& solved, const Case& c,
               const mesh::SharpCorner& corner) {
  const auto& each = solved.model.response.electrodes().each;
  for (std::size_t e = 0; e < each.size(); ++e)
    if (static_cast<int>(each[e].solid) == corner.owner)
      return c.solution.conductivity.value *
                 solved.outcome.point.laws[e].resistance <
             c.accuracy.averaging_length;
  return false;
}

std::string place_of(const mesh::Section& section,
                     const mesh::SharpCorner& corner) {
  const mesh::Outline& outline =
      section.solids[static_cast<std::size_t>(corner.owner)].outline;
  const mesh::OutlineFoot foot = mesh::nearest(outline, corner.at);
  return place_in_words(section, outline, static_cast<int>(foot.loop),
                        static_cast<int>(foot.curve), foot.t);
}

std::string sharp_note(const Certified& solved, const Case& c) {
  std::vector<const mesh::SharpCorner*> found;
  for (const mesh::SharpCorner& corner : solved.model.mesh.sharp)
    if (unbounded(solved, c, corner)) found.push_back(&corner);
  if (found.empty()) return "";
  std::sort(found.begin(), found.end(), [](const auto* a, const auto* b) {
    return a->exponent < b->exponent;
  });
  std::string places;
  for (std::size_t k = 0; k < std::min(found.size(), kMostNamed); ++k) {
    const std::string place = place_of(solved.model.section, *found[k]);
    if (places.find(place) != std::string::npos) continue;
    places += (places.empty() ? "" : "; ") + place;
  }
  return fmt::format(
      "At {} sharp {} of the part ({}{}) the ideal current density has no "
      "bound: what is shown there is its average over {:.3g} mm and would be "
      "more over less. Give the part its real edge radius, or "
      "[accuracy] averaging_length the size that matters.",
      found.size(), found.size() == 1 ? "edge" : "edges", places,
      found.size() > kMostNamed ? "; ..." : "",
      1e3 * c.accuracy.averaging_length);
}

/// The largest of the errors of least, mean and largest over the mean.
double worst_share(const Certified& solved) {
  double worst = 0;
  for (std::size_t p = 0; p < solved.errors.parts.size(); ++p) {
    const MeshErrors::OfPart& e = solved.errors.parts[p];
    const double mean = solved.outcome.parts[p].current_density_spread.mean;
    worst = std::max(worst, std::max({e.least, e.mean, e.largest}) / mean);
  }
  return worst;
}

}  // namespace

std::vector<std::string> accuracy_notes(const Certified& solved,
                                        const Case& c) {
  std::vector<std::string> notes;
  if (const std::string note = sharp_note(solved, c); !note.empty())
    notes.push_back(note);
  if (!solved.within)
    notes.push_back(fmt::format(
        "The mesh error of {:.2g} % of the mean is above the tolerance of "
        "{:.2g} %: refining ended at {} unknowns. The bands include it.",
        100 * worst_share(solved), 100 * c.accuracy.tolerance,
        solved.model.mesh.nodes.cols()));
  return notes;
}

}  // namespace thinspot::solver
