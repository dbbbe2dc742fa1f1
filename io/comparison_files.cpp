#include "io/comparison_files.hpp"

#include "io/compared_numbers.hpp"
#include "io/csv_rows.hpp"
#include "io/program.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <iterator>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Comparison;
using solver::Differing;
using solver::Figure;
using solver::KeptResult;
using solver::PartComparison;
using solver::PartResult;

/// A coating of a hundredth of a micrometre is none: nothing is a share of it.
constexpr double kHardlyAny = 1e-8;

Json if_any(const std::optional<double>& value, double factor) {
  return value ? Json(compared_number(factor * *value)) : Json(nullptr);
}

Json band(const std::optional<solver::Interval>& b, double factor) {
  if (!b) return nullptr;
  return {compared_number(factor * b->low), compared_number(factor * b->high)};
}

const char* verdict_word(Figure::Verdict verdict) {
  switch (verdict) {
    case Figure::Verdict::alike: return "the same";
    case Figure::Verdict::within: return "within the bands";
    case Figure::Verdict::beyond: return "beyond the bands";
    case Figure::Verdict::plain: break;
  }
  return "no bands";
}

Json figure(const Figure& f, const ComparedRow& row) {
  const FigureName name = figure_name(f.of);
  Json out = {{"figure", name.key},
              {"a", if_any(f.a, name.factor)},
              {"b", if_any(f.b, name.factor)}};
  out["difference"] = f.a && f.b
                          ? Json(compared_number(name.factor * (*f.b - *f.a)))
                          : Json(nullptr);
  out["a_band"] = band(f.band_a, name.factor);
  out["b_band"] = band(f.band_b, name.factor);
  out["mesh_error"] = compared_number(name.factor * f.mesh_error);
  out["verdict"] = verdict_word(f.verdict());
  out["words"] = {row.name, row.a, row.b, row.difference, row.remark};
  return out;
}

Json differing(const std::optional<Differing>& d, const PartResult& part) {
  if (!d) return nullptr;
  const solver::SurfacePoint& p = part.surface[d->point];
  Json out = {{"x_mm", compared_number(to_mm(p.at.x()))},
              {"y_mm", compared_number(to_mm(p.at.y()))},
              {"arc_mm", compared_number(to_mm(p.arc))},
              {"face", d->face},
              {"where", d->where},
              {"a_um", compared_number(to_um(d->a))},
              {"b_um", compared_number(to_um(d->b))},
              {"difference_um", compared_number(to_um(d->by()))}};
  out["difference_percent"] = d->a > kHardlyAny
                                  ? Json(compared_number(100 * d->by() / d->a))
                                  : Json(nullptr);
  out["beyond_bands"] = d->beyond ? Json(*d->beyond) : Json(nullptr);
  return out;
}

Json of_part(const PartResult& p) {
  return {{"name", p.name},
          {"mass_g", compared_number(to_grams(p.mass))},
          {"min_um", compared_number(to_um(p.thickness.value.min))},
          {"mean_um", compared_number(to_um(p.thickness.value.mean))},
          {"max_um", compared_number(to_um(p.thickness.value.max))}};
}

Json parts(const KeptResult& a, const KeptResult& b, const Comparison& c) {
  Json out = Json::array();
  for (const PartComparison& p : c.parts) {
    const PartResult &in_a = a.result.parts[p.a], &in_b = b.result.parts[p.b];
    out.push_back({{"a", of_part(in_a)},
                   {"b", of_part(in_b)},
                   {"area_compared_cm2", compared_number(to_cm2(p.area))},
                   {"thicker_share", compared_number(p.thicker)},
                   {"thinner_share", compared_number(p.thinner)},
                   {"beyond_bands_share", if_any(p.beyond, 1)},
                   {"arc_shift_mm", compared_number(to_mm(p.shift))},
                   {"most_gained", differing(p.gain, in_a)},
                   {"most_lost", differing(p.loss, in_a)}});
  }
  return out;
}

Json side(const KeptResult& kept) {
  Json out = {{"folder", kept.name}, {"title", kept.result.used.title}};
  if (!kept.result.target) return out;
  out["target_um"] = compared_number(to_um(kept.result.target->wanted));
  out["target_met"] = kept.result.target->met;
  return out;
}

Json rows_json(const std::vector<ComparedRow>& rows) {
  Json out = Json::array();
  for (const ComparedRow& r : rows)
    out.push_back({r.name, r.a, r.b, r.difference, r.remark});
  return out;
}

}  // namespace

std::string comparison_csv(const KeptResult& a, const Comparison& comparison) {
  bool banded = solver::has_bands(a);
  for (const PartComparison& p : comparison.parts)
    banded = banded && !p.band.empty();
  std::string text =
      "part,loop,arc_mm,x_mm,y_mm,face,judged,thickness_a_um,thickness_b_um,"
      "difference_um,difference_percent,current_density_a_A_dm2,"
      "current_density_b_A_dm2";
  text += banded ? ",beyond_bands\n" : "\n";
  for (const PartComparison& p : comparison.parts) {
    const PartResult& part = a.result.parts[p.a];
    for (std::size_t k = 0; k < part.surface.size(); ++k) {
      const solver::SurfacePoint& s = part.surface[k];
      if (!s.wetted) continue;
      fmt::format_to(
          std::back_inserter(text), "{},{},{},{},{},{},{},{},",
          csv_cell(part.name), s.loop, compared_text(to_mm(s.arc)),
          compared_text(to_mm(s.at.x())), compared_text(to_mm(s.at.y())),
          csv_cell(part.faces[static_cast<std::size_t>(s.face)].name),
          s.judged ? 1 : 0, compared_text(to_um(s.thickness)));
      const auto at = static_cast<Eigen::Index>(k);
      if (!p.both[k]) {
        text += fmt::format(",,,{},{}\n",
                            compared_text(to_a_dm2(s.current_density)),
                            banded ? "," : "");
        continue;
      }
      const double by = p.thickness(at) - s.thickness;
      fmt::format_to(
          std::back_inserter(text), "{},{},{},{},{}",
          compared_text(to_um(p.thickness(at))), compared_text(to_um(by)),
          s.thickness > kHardlyAny ? compared_text(100 * by / s.thickness) : "",
          compared_text(to_a_dm2(s.current_density)),
          compared_text(to_a_dm2(p.current_density(at))));
      if (banded)
        text += solver::apart(s.thickness_band, p.band[k]) ? ",1" : ",0";
      text += "\n";
    }
  }
  return text;
}

std::string comparison_json(const KeptResult& a, const KeptResult& b,
                            const Comparison& comparison,
                            const ComparisonWords& words,
                            const std::vector<WrittenFile>& files) {
  Json out = {
      {"schema", 1},
      {"program", {{"name", program_name}, {"version", program_version()}}},
      {"kind", "results"},
      {"a", side(a)},
      {"b", side(b)},
      {"words",
       {{"verdict", words.verdict},
        {"places", words.places},
        {"notes", words.notes},
        {"copies", rows_json(words.copies)}}}};
  out["figures"] = Json::array();
  for (std::size_t k = 0; k < comparison.figures.size(); ++k)
    out["figures"].push_back(figure(comparison.figures[k], words.rows[k]));
  out["parts"] = parts(a, b, comparison);
  out["files"] = Json::array();
  for (const WrittenFile& f : files)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace thinspot::io
