// Columns of a sweep's table: their names, and figures that are the result's.
#include "io/sweep_columns.hpp"
#include "io/case_file.hpp"
#include "io/sweep.hpp"
#include "solver/kept_set_up.hpp"
#include "solver/result.hpp"
#include "solver/simulate.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cctype>
#include <cmath>
#include <map>
#include <set>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

/// None twice, whatever the case of its letters.
void check_names(const std::vector<std::string>& names) {
  std::set<std::string> seen;
  for (const std::string& name : names) {
    CAPTURE(name);
    std::string small;
    for (const char c : name)
      small += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    CHECK_FALSE(name.empty());
    CHECK(seen.insert(small).second);
  }
}

std::vector<std::string> output_names(const solver::Case& c, bool bands) {
  std::vector<std::string> names;
  for (const io::SweepOutput& output : io::sweep_outputs(c, bands)) {
    names.push_back(output.name);
    CHECK_FALSE(output.meaning.empty());
  }
  return names;
}

using Values = std::map<std::string, double>;

Values values_of(const solver::SetUpFigures& f, const solver::Case& c) {
  Values values;
  for (const io::SweepOutput& output : io::sweep_outputs(c, false))
    values[output.name] = output.of(f);
  return values;
}

/// Figures of several parts as the headers of SetUpFigures have them.
Values values_of(const solver::Result& r) {
  Values v;
  double area = 0, volume = 0, current = 0, mass = 0, in_range = 0;
  solver::Spread thickness{1e9, 0, 0}, density{1e9, 0, 0};
  for (const solver::PartResult& p : r.parts) {
    const auto& t = p.thickness.value;
    const auto& d = p.current_density.value;
    thickness = {std::min(thickness.min, t.min), 0,
                 std::max(thickness.max, t.max)};
    density = {std::min(density.min, d.min), 0, std::max(density.max, d.max)};
    area += p.area;
    volume += p.area * t.mean;
    current += p.area * d.mean;
    mass += p.mass;
    in_range += p.area * p.share_in_working_range.value();
  }
  double largest = 0;
  bool burns = false;
  for (const solver::StepResult& s : r.steps) {
    largest = std::max(largest, s.max_current_density);
    burns = burns || s.burning;
  }
  v["current_A"] = r.cell.current;
  v["voltage_V"] = r.cell.voltage;
  v["thickness_min_um"] = 1e6 * thickness.min;
  v["thickness_mean_um"] = 1e6 * volume / area;
  v["thickness_max_um"] = 1e6 * thickness.max;
  v["significant_min_um"] = 1e6 * r.target->least;
  v["heaviest_over_thinnest"] = thickness.max / r.target->least;
  v["current_density_min_A_dm2"] = density.min / 100;
  v["current_density_mean_A_dm2"] = current / area / 100;
  v["current_density_max_A_dm2"] = density.max / 100;
  v["largest_current_density_A_dm2"] = largest / 100;
  v["burns"] = burns;
  v["share_in_working_range"] = in_range / area;
  v["mass_g"] = 1e3 * mass;
  v["target_met"] = r.target->met;
  v["time_needed_min"] = r.target->time_needed.value() / 60;
  return v;
}

solver::Case shipped(const std::string& name,
                     const std::vector<std::string>& set = {}) {
  return io::read_case(THINSPOT_SOURCE_DIR "/cases/" + name, set).content;
}

}  // namespace

TEST_CASE("no two columns share a name", "[sweep]") {
  solver::Case c;
  for (const char* name : {"A", "a", "a!", "!!", "?", "", "\u00E4", "a um 2",
                           "a_um", "first face, middle", "a"})
    c.probes.push_back({name, {}});
  for (int k = 0; k < 1000; ++k) c.probes.push_back({"!", {}});
  for (const bool bands : {false, true}) check_names(output_names(c, bands));
  check_names(output_names({}, true));
  // Of inputs and outputs beside each other, and the table's own.
  std::vector<io::SweepAxis> axes;
  for (const char* vary :
       {"anode.A.gap=1 mm,2 mm", "anode.a.gap=1 mm,2 mm",
        "solution.conductivity=1 S/m,2 S/m", "k=1 ohm cm2,2 ohm cm2",
        "e=90 %,95 %", "i=1 mA/cm\u00B2,2 mA/cm\u00B2",
        "t=20 \u00B0C,30 \u00B0C", "part.shape=coin,plate", "n=1,2",
        "depth=1 mm,2 mm"})
    axes.push_back(io::sweep_axis(vary));
  std::vector<std::string> names = output_names({}, true);
  const auto inputs = io::sweep_inputs(axes);
  for (const io::SweepColumn& column : inputs) names.push_back(column.name);
  for (const char* own : {"point", "status", "message", "limited_by", "run"})
    names.push_back(own);
  check_names(names);
  CHECK(inputs[0].name == "anode.A.gap_mm");
  CHECK(inputs[1].name == "anode.a.gap_mm_2");
  CHECK(inputs[2].name == "solution.conductivity_S_m");
  CHECK(inputs[3].name == "k_ohm_cm2");
  CHECK(inputs[4].name == "e");
  CHECK(inputs[4].unit == "%");
  CHECK(inputs[7].name == "part.shape");
}

TEST_CASE("probes have columns also where a point is refused", "[sweep]") {
  const std::string text =
      and_also("[[probe]]\nname = \"top\"\nat = [\"45 mm\", \"65 mm\"]\n");
  for (const char* vary : {"supply.current=-1 A,0.3 A", "supply.current=0.3 A"})
    CHECK(io::output_index(sweep_of({vary}, 0, text).outputs(),
                           "probe_top_um") == 18);
  // Where neither the file nor its ends are sound.
  const std::string lacking =
      with(text, "[supply]\ncurrent = \"0.33 A\"\n", "");
  const io::Sweep sweep =
      sweep_of({"supply.current=-1 A,0.3 A,-2 A"}, 0, lacking);
  CHECK(io::output_index(sweep.outputs(), "probe_top_um") == 18);
  CHECK(io::output_index(sweep.outputs(), "nothing") == sweep.outputs().size());
}

TEST_CASE("columns are the result's figures", "[sweep]") {
  const auto [file, set] = GENERATE(
      std::pair<const char*, std::vector<std::string>>{"token_four_turns.toml",
                                                       {}},
      std::pair<const char*, std::vector<std::string>>{
          "rack_of_six.toml",
          {"target.working_range=[\"1 A/dm2\", \"2 A/dm2\"]",
           "target.thickness=8 um"}},
      std::pair<const char*, std::vector<std::string>>{
          "strip_shield_thief.toml", {"supply.current=3 A"}});
  CAPTURE(file);
  const solver::Case c = shipped(file, set);
  const solver::Result r = solver::simulate(c);
  const Values wanted = values_of(r);
  const solver::SetUpFigures alone = solver::solved_alone(c, false);
  const Values figures = values_of(alone, c);
  for (const auto& [name, value] : wanted) {
    CAPTURE(name);
    REQUIRE(figures.count(name) == 1);
    CHECK(figures.at(name) == Approx(value).epsilon(1e-9));
  }
  REQUIRE(alone.probes.size() == r.probes.size());
  for (std::size_t k = 0; k < r.probes.size(); ++k)
    CHECK(alone.probes[k] == Approx(r.probes[k].thickness).epsilon(1e-9));
  CHECK(alone.limited_by == r.cell.limited_by);
  CHECK(alone.within == r.within_tolerance);
  CHECK(alone.mesh_errors.voltage ==
        Approx(r.cell.voltage_mesh_error).epsilon(1e-9));
  // The thinnest judged spot is one of those that are told.
  bool told = false;
  for (const solver::PartResult& p : r.parts)
    for (const solver::Spot& spot : p.thin_spots)
      told = told || (spot.at - alone.thinnest).norm() < 1e-6;
  CHECK(told);
}

TEST_CASE("on meshes of others they are, within the mesh errors", "[sweep]") {
  const auto at = [](const char* current) {
    return shipped("token_four_turns.toml",
                   {fmt::format("supply.current={}", current)});
  };
  const solver::KeptSetUp kept({at("0.2 A"), at("0.5 A")});
  REQUIRE(kept.works());
  for (const char* current : {"0.2 A", "0.3 A", "0.5 A"}) {
    CAPTURE(current);
    const solver::Case c = at(current);
    const Values own = values_of(solver::solved_alone(c, false), c);
    const Values shared = values_of(kept.answer(c, false), c);
    for (const char* name :
         {"thickness_min_um", "thickness_mean_um", "thickness_max_um",
          "significant_min_um", "voltage_V", "current_A"}) {
      CAPTURE(name);
      const std::string error = std::string(name) + "_mesh_error";
      CHECK(std::abs(shared.at(name) - own.at(name)) <=
            shared.at(error) + own.at(error) + 1e-9 * own.at(name));
    }
    for (const char* name : {"burns", "target_met", "within_tolerance"})
      CHECK(shared.at(name) == own.at(name));
  }
}

TEST_CASE("at its own corner a mesh error is not less than alone", "[sweep]") {
  // Of copies that come out unlike each other.
  const solver::Case c = shipped("rack_of_six.toml");
  const solver::SetUpFigures alone = solver::solved_alone(c, false);
  const solver::SetUpFigures kept = solver::KeptSetUp({c}).answer(c, false);
  const auto at_least = [](double share, double own) {
    CHECK(own > 0);
    CHECK(share >= own * (1 - 1e-9));
  };
  at_least(kept.mesh_errors.thickness.min, alone.mesh_errors.thickness.min);
  at_least(kept.mesh_errors.thickness.mean, alone.mesh_errors.thickness.mean);
  at_least(kept.mesh_errors.thickness.max, alone.mesh_errors.thickness.max);
  at_least(kept.mesh_errors.least_judged, alone.mesh_errors.least_judged);
  at_least(kept.mesh_errors.voltage, alone.mesh_errors.voltage);
}
