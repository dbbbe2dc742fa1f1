#include "io/readings_compared.hpp"

#include "io/compared_numbers.hpp"
#include "io/csv_rows.hpp"
#include "io/program.hpp"
#include "io/reading_text.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <iterator>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::ReadAgainst;

const char* what_of(solver::Reading::Of of) {
  using Of = solver::Reading::Of;
  switch (of) {
    case Of::voltage: return "voltage";
    case Of::current: return "current";
    case Of::mass: return "mass";
    case Of::thickness: return "thickness";
    case Of::ratio: break;
  }
  return "ratio";
}

Json place_of(const solver::KeptResult& kept, const ReadAgainst& a) {
  if (!a.place) return nullptr;
  return {{"part", kept.result.parts[a.place->part].name},
          {"loop", a.place->loop},
          {"arc_mm", compared_number(to_mm(a.place->arc))},
          {"beside_mm", compared_number(to_mm(a.place->beside))},
          {"where", a.place->where}};
}

Json reading(const solver::KeptResult& kept, const ReadAgainst& a,
             const ReadRow& row) {
  const ReadUnit unit = read_unit(a.reading.of);
  const double f = unit.factor;
  Json out = {{"line", a.reading.line},
              {"what", what_of(a.reading.of)},
              {"unit", unit.key},
              {"read", compared_number(f * a.reading.value)},
              {"plus_minus", compared_number(f * a.reading.plus_minus)},
              {"forecast", compared_number(f * a.forecast)}};
  out["band"] = a.band ? Json{compared_number(f * a.band->low),
                              compared_number(f * a.band->high)}
                       : Json(nullptr);
  out["mesh_error"] = compared_number(f * a.mesh_error);
  out["difference"] = compared_number(f * a.by());
  out["z"] = compared_number(a.z);
  out["place"] = place_of(kept, a);
  out["method"] = a.reading.method;
  out["note"] = a.reading.note;
  out["words"] = {row.name, row.read, row.forecast, row.difference, row.z};
  return out;
}

}  // namespace

std::string readings_csv(const std::vector<ReadAgainst>& all) {
  std::string text =
      "line,what,at,unit,read,plus_minus,forecast,band_low,band_high,"
      "difference,z,method,note\n";
  for (const ReadAgainst& a : all) {
    const ReadUnit unit = read_unit(a.reading.of);
    const double f = unit.factor;
    fmt::format_to(
        std::back_inserter(text), "{},{},{},{},{},{},{},", a.reading.line,
        what_of(a.reading.of), csv_cell(a.reading.at), unit.key,
        compared_text(f * a.reading.value),
        compared_text(f * a.reading.plus_minus), compared_text(f * a.forecast));
    text += a.band ? compared_text(f * a.band->low) + "," +
                         compared_text(f * a.band->high)
                   : ",";
    fmt::format_to(std::back_inserter(text), ",{},{},{},{}\n",
                   compared_text(f * a.by()), compared_text(a.z),
                   csv_cell(a.reading.method), csv_cell(a.reading.note));
  }
  return text;
}

std::string readings_json(const solver::KeptResult& kept,
                          const std::string& file,
                          const std::vector<ReadAgainst>& all,
                          const ReadingsWords& words,
                          const std::vector<WrittenFile>& files) {
  const solver::Agreement g = solver::agreement(all);
  Json out = {
      {"schema", 1},
      {"program", {{"name", program_name}, {"version", program_version()}}},
      {"kind", "readings"},
      {"a", {{"folder", kept.name}, {"title", kept.result.used.title}}},
      {"b", {{"file", file}}},
      {"words",
       {{"verdict", words.verdict},
        {"places", words.places},
        {"notes", words.notes}}},
      {"agree", g.agree()},
      {"beyond", g.beyond},
      {"chance", compared_number(g.chance())},
      {"mean_z", compared_number(g.mean)}};
  out["readings"] = Json::array();
  for (std::size_t k = 0; k < all.size(); ++k)
    out["readings"].push_back(reading(kept, all[k], words.rows[k]));
  out["files"] = Json::array();
  for (const WrittenFile& f : files)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace thinspot::io
