#include "io/case_reading.hpp"

#include "io/nearest.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace thinspot::io {

namespace {

/// Addresses of the solids that carry current.
std::vector<std::string> electrodes(const CaseReading& r) {
  std::vector<std::string> keys;
  for (const auto& [key, faces] : r.faces)
    if (!key.starts_with("shield.")) keys.push_back(key);
  return keys;
}

/// @returns "" where there is no such solid, or it carries no current.
std::string read_solid_masked(CaseReading& r, TableReader& t) {
  if (!t.has("on")) return "part";
  const auto on = t.text("on");
  if (!on) return "";
  if (on->starts_with("shield.") && r.faces.contains(*on)) {
    t.wrong("on", "a shield carries no current, masked or not",
            "leave the mask out");
    return "";
  }
  const std::vector<std::string> known = electrodes(r);
  if (std::find(known.begin(), known.end(), *on) != known.end()) return *on;
  const auto near = nearest(*on, known);
  t.wrong("on", in_quotes(*on) + " is not a solid of this case",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "\"part\", or an address as in on = \"anode.sheet\"");
  return "";
}

/// Either `faces`, or `from` and `to`.
void check_stretch_keys(TableReader& t) {
  const bool faces = t.has("faces"), from = t.has("from"), to = t.has("to");
  if (faces && (from || to))
    t.wrong("faces", "the stretch is given by from or to as well",
            "give faces, or from and to");
  else if (from != to)
    t.missing(from ? "to" : "from",
              "give both ends, counter-clockwise along the surface");
  else if (!faces && !from)
    t.missing("faces",
              "give faces = [\"left\"], or the points from and to, "
              "counter-clockwise");
}

mesh::Mask read_mask(CaseReading& r, TableReader& t) {
  mesh::Mask mask;
  mask.key = t.address();
  t.text("name");
  mask.on = read_solid_masked(r, t);
  check_stretch_keys(t);
  mask.faces = t.texts("faces").value_or(std::vector<std::string>{});
  if (!mask.on.empty()) check_faces(r, t, "faces", mask.faces, mask.on);
  const auto from = t.point("from"), to = t.point("to");
  if (from && to) {
    mask.between = {*from, *to};
    if (*from == *to)
      t.wrong("to", "is the same point as from",
              "the other end of the stretch, or faces");
  }
  return mask;
}

}  // namespace

void read_masks(CaseReading& r) {
  std::map<std::string, std::set<std::string>> covered;
  for (TableReader& t : open_tables(r, "mask")) {
    mesh::Mask mask = read_mask(r, t);
    std::set<std::string>& faces = covered[mask.on];
    const std::size_t before = faces.size();
    faces.insert(mask.faces.begin(), mask.faces.end());
    const auto all = r.faces.find(mask.on);
    // Faces that are not there are noted already.
    if (all != r.faces.end() && !all->second.empty() && faces.size() > before &&
        std::all_of(all->second.begin(), all->second.end(),
                    [&](const auto& face) { return faces.contains(face); }))
      t.wrong("faces",
              fmt::format("leaves nothing of {} bare",
                          mask.on == "part" ? "the part" : mask.on),
              "fewer faces: what is masked all over carries no current");
    r.content.section.masks.push_back(std::move(mask));
  }
}

}  // namespace thinspot::io
