#include "io/sweep_columns.hpp"

#include "io/trade_units.hpp"
#include "mesh/lower_case.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <set>

namespace thinspot::io {

namespace {

using solver::SetUpFigures;

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

constexpr const char* kMeshError =
    "how far the mesh may have put the figure off, either way";
constexpr const char* kBandLow =
    "lower end of the figure's 95 % band, from what is uncertain in the case";
constexpr const char* kBandHigh =
    "upper end of the figure's 95 % band, from what is uncertain in the case";

double or_none(const std::optional<double>& value, double unit = 1) {
  return value ? *value / unit : kNone;
}

double flag(const std::optional<bool>& value) {
  return value ? (*value ? 1 : 0) : kNone;
}

using F = const SetUpFigures&;

std::vector<SweepOutput> figures() {
  return {
      {{"current_A", "A", "whole cathode current in the last step"},
       [](F f) { return f.current; }},
      {{"voltage_V", "V", "at the supply's terminals in the last step"},
       [](F f) { return f.voltage; }},
      {{"thickness_min_um", "um", "least thickness over all surface"},
       [](F f) { return to_um(f.thickness.min); }},
      {{"thickness_mean_um", "um", "mean thickness"},
       [](F f) { return to_um(f.thickness.mean); }},
      {{"thickness_max_um", "um", "largest thickness"},
       [](F f) { return to_um(f.thickness.max); }},
      {{"significant_min_um", "um",
        "least thickness over the significant surface"},
       [](F f) { return to_um(f.least_judged); }},
      {{"heaviest_over_thinnest", "",
        "largest thickness over the least of the significant surface: 1 is "
        "even"},
       [](F f) {
         return f.least_judged > 0 ? f.thickness.max / f.least_judged : kNone;
       }},
      {{"thinnest_x_mm", "mm", "where that least is, on the part as drawn"},
       [](F f) { return to_mm(f.thinnest.x()); }},
      {{"thinnest_y_mm", "mm", "where that least is, on the part as drawn"},
       [](F f) { return to_mm(f.thinnest.y()); }},
      {{"current_density_min_A_dm2", "A/dm2", "least, in the last step"},
       [](F f) { return to_a_dm2(f.current_density.min); }},
      {{"current_density_mean_A_dm2", "A/dm2", "mean, in the last step"},
       [](F f) { return to_a_dm2(f.current_density.mean); }},
      {{"current_density_max_A_dm2", "A/dm2", "largest, in the last step"},
       [](F f) { return to_a_dm2(f.current_density.max); }},
      {{"largest_current_density_A_dm2", "A/dm2", "largest of all steps"},
       [](F f) { return to_a_dm2(f.largest_density); }},
      {{"burns", "",
        "1 where a place likely burns, 0 where none does; empty: no limit is "
        "known"},
       [](F f) { return flag(f.burns); }},
      {{"share_in_working_range", "",
        "share of the area within target.working_range; empty: none is given"},
       [](F f) { return or_none(f.share_in_range); }},
      {{"mass_g", "g", "metal deposited on all parts"},
       [](F f) { return to_grams(f.mass); }},
      {{"target_met", "",
        "1 where the target is met, 0 where not; empty: none is set"},
       [](F f) { return flag(f.target_met); }},
      {{"time_needed_min", "min", "for the target; empty: none, or never"},
       [](F f) { return or_none(f.time_needed, 60); }},
  };
}

std::vector<SweepOutput> mesh_errors() {
  return {
      {{"thickness_min_um_mesh_error", "um", kMeshError},
       [](F f) { return to_um(f.mesh_errors.thickness.min); }},
      {{"thickness_mean_um_mesh_error", "um", kMeshError},
       [](F f) { return to_um(f.mesh_errors.thickness.mean); }},
      {{"thickness_max_um_mesh_error", "um", kMeshError},
       [](F f) { return to_um(f.mesh_errors.thickness.max); }},
      {{"significant_min_um_mesh_error", "um", kMeshError},
       [](F f) { return to_um(f.mesh_errors.least_judged); }},
      {{"voltage_V_mesh_error", "V", kMeshError},
       [](F f) { return f.mesh_errors.voltage; }},
      {{"current_A_mesh_error", "A", kMeshError},
       [](F f) { return f.mesh_errors.current; }},
      {{"within_tolerance", "", "1 where these are within accuracy.tolerance"},
       [](F f) { return f.within ? 1.0 : 0.0; }},
  };
}

std::vector<SweepOutput> bands() {
  return {
      {{"significant_min_um_band_low", "um", kBandLow},
       [](F f) { return to_um(f.bands->least_judged.low); }},
      {{"significant_min_um_band_high", "um", kBandHigh},
       [](F f) { return to_um(f.bands->least_judged.high); }},
      {{"thickness_mean_um_band_low", "um", kBandLow},
       [](F f) { return to_um(f.bands->mean.low); }},
      {{"thickness_mean_um_band_high", "um", kBandHigh},
       [](F f) { return to_um(f.bands->mean.high); }},
      {{"voltage_V_band_low", "V", kBandLow},
       [](F f) { return f.bands->voltage.low; }},
      {{"voltage_V_band_high", "V", kBandHigh},
       [](F f) { return f.bands->voltage.high; }},
      {{"current_A_band_low", "A", kBandLow},
       [](F f) { return f.bands->current.low; }},
      {{"current_A_band_high", "A", kBandHigh},
       [](F f) { return f.bands->current.high; }},
      {{"chance_of_target", "",
        "of meeting the target everywhere that counts, 0 to 1"},
       [](F f) { return or_none(f.bands->chance); }},
  };
}

/// Letters and digits stay, all else becomes one underscore.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool stays = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
                       (c >= 'A' && c <= 'Z');
    if (stays) out += c;
    if (!stays && !out.empty() && out.back() != '_') out += '_';
  }
  while (out.ends_with('_')) out.pop_back();
  return out;
}

/// Names of columns, none twice whatever the case of its letters.
class Names {
 public:
  std::string own(const std::string& name) {
    std::string own = name;
    for (int k = 2; !seen_.insert(mesh::lower_case(own)).second; ++k)
      own = name + "_" + std::to_string(k);
    return own;
  }

 private:
  std::set<std::string> seen_;
};

}  // namespace

std::vector<SweepOutput> sweep_outputs(const solver::Case& c, bool with_bands) {
  std::vector<SweepOutput> all = figures();
  Names names;
  for (std::size_t k = 0; k < c.probes.size(); ++k)
    all.push_back({{names.own("probe_" + plain(c.probes[k].name) + "_um"), "um",
                    "thickness at that probe"},
                   [k](F f) { return to_um(f.probes.at(k)); }});
  for (SweepOutput& output : mesh_errors()) all.push_back(std::move(output));
  if (with_bands)
    for (SweepOutput& output : bands()) all.push_back(std::move(output));
  return all;
}

std::vector<SweepColumn> sweep_inputs(const std::vector<SweepAxis>& axes) {
  std::vector<SweepColumn> columns;
  Names names;
  for (const SweepAxis& axis : axes) {
    const std::string unit = plain(axis.unit);
    columns.push_back({names.own(axis.key + (unit.empty() ? "" : "_" + unit)),
                       axis.unit, "what the key is set to"});
  }
  return columns;
}

std::size_t output_index(const std::vector<SweepOutput>& outputs,
                         std::string_view name) {
  return static_cast<std::size_t>(
      std::find_if(outputs.begin(), outputs.end(),
                   [&](const SweepOutput& o) { return o.name == name; }) -
      outputs.begin());
}

}  // namespace thinspot::io
