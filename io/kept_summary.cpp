#include "io/kept_summary.hpp"

#include "io/program.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <string>

namespace thinspot::io {

namespace {

using Json = nlohmann::json;
using solver::BandedSpread;
using solver::Interval;
using solver::PartResult;
using solver::Result;

constexpr int kSchema = 1;
constexpr double kLargest = 1e12;
/// Deeper no summary of ours goes.
constexpr int kDeepest = 32;
constexpr std::size_t kLongestText = 1000;
constexpr const char* kAgain = "run thinspot solve again";

[[noreturn]] void damaged(const std::string& what) {
  throw InputError("summary.json", "is damaged: " + what, kAgain);
}

/// A value with the way that led to it, for messages.
class Node {
 public:
  Node(const Json& json, std::string way) : json_(json), way_(std::move(way)) {}

  bool has(const char* key) const {
    return json_.is_object() && json_.contains(key) && !json_[key].is_null();
  }
  Node at(const char* key) const {
    if (!has(key)) damaged(fmt::format("it has no {}", joined(key)));
    return {json_[key], joined(key)};
  }
  std::vector<Node> items() const {
    if (!json_.is_array()) damaged(way_ + " is no list");
    std::vector<Node> all;
    for (std::size_t k = 0; k < json_.size(); ++k)
      all.emplace_back(json_[k], fmt::format("{}[{}]", way_, k));
    return all;
  }
  double number() const {
    if (!json_.is_number()) damaged(way_ + " is no number");
    const auto value = json_.get<double>();
    if (!std::isfinite(value) || std::abs(value) > kLargest)
      damaged(way_ + " makes no sense");
    return value;
  }
  std::string text() const {
    if (!json_.is_string()) damaged(way_ + " is no text");
    return json_.get_ref<const std::string&>().substr(0, kLongestText);
  }
  bool flag() const {
    if (!json_.is_boolean()) damaged(way_ + " is neither true nor false");
    return json_.get<bool>();
  }

 private:
  std::string joined(const char* key) const {
    return way_.empty() ? key : way_ + "." + key;
  }
  const Json& json_;
  std::string way_;
};

double number(const Node& node, const char* key, double unit = 1) {
  return unit * node.at(key).number();
}

/// Nothing uncertain where there is no band.
Interval band(const Node& node, const std::string& key, double value,
              double unit) {
  if (!node.has(key.c_str())) return {value, value};
  const std::vector<Node> ends = node.at(key.c_str()).items();
  if (ends.size() != 2) damaged(key + " has not two ends");
  const Interval found{unit * ends[0].number(), unit * ends[1].number()};
  if (found.low > found.high) damaged(key + " has its ends changed round");
  return found;
}

double if_any(const Node& node, const char* key, double unit = 1) {
  return node.has(key) ? number(node, key, unit) : 0;
}

BandedSpread spread(const Node& node, double unit) {
  BandedSpread s;
  s.value = {number(node, "min", unit), number(node, "mean", unit),
             number(node, "max", unit)};
  s.min_band = band(node, "min_band", s.value.min, unit);
  s.mean_band = band(node, "mean_band", s.value.mean, unit);
  s.max_band = band(node, "max_band", s.value.max, unit);
  s.mesh_error = {if_any(node, "min_mesh_error", unit),
                  if_any(node, "mean_mesh_error", unit),
                  if_any(node, "max_mesh_error", unit)};
  return s;
}

std::vector<solver::Spot> spots(const Node& node, const char* key) {
  std::vector<solver::Spot> found;
  for (const Node& s : node.at(key).items())
    found.push_back(
        {.at = 1e-3 * mesh::Point(number(s, "x_mm"), number(s, "y_mm")),
         .arc = number(s, "arc_mm", 1e-3),
         .face = s.at("face").text(),
         .where = s.at("where").text(),
         .thickness = number(s, "thickness_um", 1e-6)});
  return found;
}

PartResult part(const Node& node) {
  PartResult p;
  p.name = node.at("name").text();
  p.area = number(node, "area_cm2", 1e-4);
  p.current = number(node, "current_A");
  p.mass = number(node, "mass_g", 1e-3);
  p.current_density = spread(node.at("current_density_A_dm2"), 1e2);
  p.thickness = spread(node.at("thickness_um"), 1e-6);
  for (const Node& face : node.at("faces").items()) {
    solver::FaceResult& f = p.faces.emplace_back();
    f.name = face.at("name").text();
    f.judged = face.at("judged").flag();
    f.area = number(face, "area_cm2", 1e-4);
    f.thickness = spread(face.at("thickness_um"), 1e-6).value;
    f.current_density = spread(face.at("current_density_A_dm2"), 1e2).value;
  }
  p.thin_spots = spots(node, "thin_spots");
  p.heavy_spots = spots(node, "heavy_spots");
  for (const Node& bare : node.at("bare").items())
    p.bare.push_back({bare.at("face").text(), number(bare, "from_mm", 1e-3),
                      number(bare, "to_mm", 1e-3), bare.at("why").text()});
  return p;
}

solver::CellResult cell(const Node& node) {
  solver::CellResult c;
  c.current = number(node, "current_A");
  c.voltage = number(node, "voltage_V");
  c.current_band = band(node, "current_A_band", c.current, 1);
  c.voltage_band = band(node, "voltage_V_band", c.voltage, 1);
  c.voltage_mesh_error = if_any(node, "voltage_V_mesh_error");
  c.limited_by = node.at("limited_by").text();
  return c;
}

std::vector<solver::StepResult> steps(const Node& root) {
  std::vector<solver::StepResult> all;
  for (const Node& node : root.at("steps").items()) {
    solver::StepResult& s = all.emplace_back();
    s.duration = number(node, "duration_min", 60);
    s.cell = cell(node.at("cell"));
  }
  return all;
}

std::vector<solver::ProbeResult> probes(const Node& root) {
  std::vector<solver::ProbeResult> all;
  for (const Node& node : root.at("probes").items())
    all.push_back(
        {.name = node.at("name").text(),
         .at = 1e-3 * mesh::Point(number(node, "x_mm"), number(node, "y_mm")),
         .face = node.at("face").text(),
         .current_density = number(node, "current_density_A_dm2", 1e2),
         .thickness = number(node, "thickness_um", 1e-6),
         .thickness_mesh_error =
             if_any(node, "thickness_um_mesh_error", 1e-6)});
  return all;
}

std::optional<solver::TargetResult> target(const Node& root) {
  if (!root.has("target")) return std::nullopt;
  const Node node = root.at("target");
  solver::TargetResult t;
  t.met = node.at("met").flag();
  t.wanted = number(node, "wanted_um", 1e-6);
  t.least = number(node, "least_um", 1e-6);
  t.least_band = band(node, "least_um_band", t.least, 1e-6);
  t.least_mesh_error = if_any(node, "least_um_mesh_error", 1e-6);
  t.shortfall = number(node, "shortfall_um", 1e-6);
  if (node.has("time_needed_min"))
    t.time_needed = number(node, "time_needed_min", 60);
  return t;
}

/// Deep trees are refused before they are built: taking one down again would
/// need as much stack.
Json parsed(std::string_view text) {
  bool deep = false;
  const auto watch = [&](int depth, Json::parse_event_t, Json&) {
    deep = deep || depth > kDeepest;
    return !deep;
  };
  Json json = Json::parse(text.begin(), text.end(), watch, false);
  if (deep || json.is_discarded()) damaged("it is no sound JSON");
  if (!json.is_object()) damaged("it is no JSON object");
  return json;
}

void check_origin(const Json& json) {
  const auto program = json.find("program");
  const bool ours =
      program != json.end() && program->is_object() &&
      program->contains("name") && (*program)["name"].is_string() &&
      (*program)["name"].get_ref<const std::string&>() == program_name;
  if (!ours)
    throw InputError("summary.json", "was not written by thinspot",
                     "name a folder that thinspot solve has filled");
  const auto schema = json.find("schema");
  if (schema == json.end() || !schema->is_number_integer())
    damaged("it does not say its schema");
  const auto found = schema->get<long long>();
  if (found > kSchema)
    throw InputError("summary.json",
                     fmt::format("is of schema {}, this thinspot knows up to "
                                 "{}",
                                 found, kSchema),
                     "use the newer thinspot that wrote it");
  if (found != kSchema) damaged(fmt::format("there is no schema {}", found));
}

}  // namespace

KeptSummary read_summary(std::string_view text) {
  const Json json = parsed(text);
  check_origin(json);
  const Node root(json, "");
  KeptSummary out;
  Result& r = out.kept.result;
  r.used.title = root.at("title").text();
  r.section.cut =
      root.at("section").text() == "axisymmetric" ? mesh::Cut::axisymmetric
      : root.has("view") && root.at("view").text() == "plan" ? mesh::Cut::plan
                                                             : mesh::Cut::side;
  for (const Node& node : root.at("parts").items())
    r.parts.push_back(part(node));
  if (r.parts.empty()) damaged("it has no part");
  r.cell = cell(root.at("cell"));
  r.steps = steps(root);
  if (r.steps.empty()) damaged("it has no step");
  r.probes = probes(root);
  r.target = target(root);
  if (r.target) r.used.target.thickness = r.target->wanted;
  for (const Node& file : root.at("files").items())
    if (file.at("name").text() == "surface.csv") {
      const double bytes = number(file, "bytes");
      if (bytes < 0) damaged("surface.csv has less than no bytes");
      out.surface_bytes = static_cast<std::uintmax_t>(bytes);
      return out;
    }
  damaged("it does not list surface.csv");
}

}  // namespace thinspot::io
