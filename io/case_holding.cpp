#include "io/case_reading.hpp"

#include "mesh/placement.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

/// Each is checked against each other; more than this nobody waits for.
constexpr std::size_t kMostCopies = 1000;

/// A clip without a gap bites so deep [m]: contact on a length of its own, not
/// on a line, whatever the rounding.
constexpr double kBite = 10e-6;

/// Where a clip stands that is given by side and gap. It stays beside its own
/// copy of the part, while anodes stand beside the whole rack.
void settle_place(CaseReading& r, const mesh::Section& part,
                  mesh::Solid& clip) {
  const mesh::Point way = -mesh::direction(*clip.side);
  const bool touches = clip.gap == 0;
  if (touches) clip.gap = kBite;
  try {
    clip.at = mesh::place(clip, part).spec.at;
    if (touches) clip.at += 2 * kBite * way;
  } catch (const InputError& error) {
    r.findings.add(clip.key, error);
  }
  clip.side.reset();
  clip.gap = 0;
}

/// Of all clips.
void settle_places(CaseReading& r, std::vector<mesh::Solid>& drawn) {
  mesh::Section part;
  part.cut = r.content.section.cut;
  part.solids.push_back(mesh::place(drawn.front(), part));
  for (mesh::Solid& clip : drawn)
    if (clip.side) settle_place(r, part, clip);
}

}  // namespace

void read_wires(CaseReading& r) {
  for (TableReader& t : open_tables(r, "wire")) {
    t.text("name");
    r.content.wires.push_back({name_in(t), t.value("diameter").value_or(0),
                               t.value("wetted").value_or(0),
                               t.flag("insulated").value_or(false)});
  }
}

void read_clips(CaseReading& r) {
  for (TableReader& t : open_tables(r, "clip")) {
    solver::Clip clip{name_in(t), {}, {}};
    if (const auto given = t.quantity("contact_resistance"))
      clip.contact_resistance = *given;
    if (const auto solid = read_beside_part(r, t, mesh::Role::clip)) {
      const double gap = r.content.section.solids[*solid].gap;
      if (gap > 0 && gap < kBite)
        t.wrong("gap", "is neither a gap nor a contact",
                "0 mm where it touches the part, else at least 10 um");
      clip.solids.push_back(*solid);
    }
    r.content.clips.push_back(std::move(clip));
  }
}

void read_rack(CaseReading& r) {
  TableReader t = open_table(r, "rack");
  const auto at = t.points("at");
  if (!at) return;
  solver::Rack rack{*at, {}};
  if (const auto given = t.quantities("contact_resistance", at->size()))
    rack.contact_resistance = *given;
  r.content.rack = std::move(rack);
}

void hang_on_rack(CaseReading& r) {
  std::vector<mesh::Solid>& drawn = r.content.section.solids;
  if (drawn.empty() || drawn.front().role != mesh::Role::part) return;
  settle_places(r, drawn);
  if (!r.content.rack) return;
  const std::vector<mesh::Point>& places = r.content.rack->at;
  if (drawn.size() * places.size() > kMostCopies) {
    r.findings.add("rack.at",
                   fmt::format("{} places with {} clips each are more than can "
                               "be taken",
                               places.size(), drawn.size() - 1),
                   fmt::format("at most {} parts and clips", kMostCopies));
    return;
  }
  std::vector<mesh::Solid> hung = mesh::copies_on_rack(drawn, places);
  for (solver::Clip& clip : r.content.clips) {
    if (clip.solids.empty()) continue;
    const std::string key = drawn[clip.solids.front()].key;
    clip.solids.clear();
    for (std::size_t k = 0; k < hung.size(); ++k)
      if (mesh::key_without_copy(hung[k]) == key) clip.solids.push_back(k);
  }
  drawn = std::move(hung);
}

}  // namespace thinspot::io
