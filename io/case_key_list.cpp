#include "io/case_keys.hpp"
#include "solver/laws.hpp"

#include <utility>

namespace thinspot::io {

namespace {

constexpr Limits kArea{Dimension::area, "0.01 mm2", "100 m2"};
constexpr Limits kVolume{Dimension::volume, "1 ml", "100 m3"};
constexpr Limits kAngle{Dimension::angle, "-360 deg", "360 deg"};
constexpr Limits kConductivity{Dimension::conductivity, "1e-6 S/m", "1000 S/m"};
constexpr Limits kEfficiency{Dimension::fraction, "0.01 %", "100 %"};
constexpr Limits kTemperature{Dimension::temperature, "-20 degC", "110 degC"};
constexpr Limits kDensity{Dimension::current_density, "1e-6 A/dm2",
                          "10000 A/dm2"};
constexpr Limits kCurrent{Dimension::current, "1 nA", "100 kA"};
constexpr Limits kVoltage{Dimension::voltage, "1 uV", "1000 V"};
constexpr Limits kOffset{Dimension::voltage, "-10 V", "10 V"};
constexpr Limits kLead{Dimension::resistance, "0 ohm", "1000 ohm"};
constexpr Limits kSlope{Dimension::area_resistance, "0 ohm cm2", "1e6 ohm cm2"};
constexpr Limits kExchange{Dimension::current_density, "1e-12 A/m2",
                           "1e5 A/m2"};
constexpr Limits kDecade{Dimension::voltage, "1 mV", "1 V"};
constexpr Limits kDuration{Dimension::duration, "1 ms", "3650 day"};
constexpr Limits kHandling{Dimension::duration, "0 s", "1 day"};
constexpr Limits kCoating{Dimension::length, "1 nm", "10 mm"};
constexpr Limits kTolerance{Dimension::fraction, "0.001 %", "20 %"};
constexpr Limits kAveraging{Dimension::length, "1 um", "10 mm"};
constexpr Limits kCorrelation{Dimension::fraction, "-1", "1"};
constexpr Limits kScale{Dimension::fraction, "0.000001", "1000000"};

// More than any bench has; what takes longer than anybody waits is refused.
constexpr std::size_t kMostSolids = 200;
constexpr std::size_t kMostSteps = 200;
constexpr std::size_t kMostRectifiers = 20;

KeyInfo text(std::string_view name) { return {name, Form::text}; }
KeyInfo name() { return {"name", Form::name}; }
KeyInfo flag(std::string_view name) { return {name, Form::flag}; }

KeyInfo choice(std::string_view name, std::vector<std::string_view> words) {
  KeyInfo key{name, Form::choice};
  key.choices = std::move(words);
  return key;
}

KeyInfo value(std::string_view name, const Limits& limits) {
  return {name, Form::value, limits};
}

KeyInfo quantity(std::string_view name, const Limits& limits) {
  return {name, Form::quantity, limits};
}

KeyInfo point(std::string_view name) {
  return {name, Form::point, limits::coordinate};
}

KeyInfo must(KeyInfo key) {
  key.required = true;
  return key;
}

KeyInfo instead(std::vector<std::string_view> others, KeyInfo key) {
  key.instead_of = std::move(others);
  return key;
}

KeyInfo braced(std::string_view name, std::string_view example) {
  KeyInfo key{name, Form::table};
  key.example = example;
  return key;
}

std::vector<KeyInfo> top_keys() {
  return {
      must({"schema", Form::whole}),
      text("title"),
      choice("section", {"planar", "axisymmetric"}),
      choice("view", {"side", "plan"}),
      value("depth", limits::length),
      flag("growth"),
  };
}

std::vector<KeyInfo> tank_keys() {
  return {
      choice("shape", {"box", "round", "outline"}),
      value("width", limits::length),
      value("height", limits::length),
      value("diameter", limits::length),
      instead({"volume", "depth"}, value("level", limits::length)),
      instead({"level"}, value("volume", kVolume)),
      instead({"level"}, value("depth", limits::length)),
      text("file"),
      {"scale", Form::factor, kScale},
      text("unit"),
  };
}

std::vector<KeyInfo> solution_keys() {
  return {
      text("use"),
      braced("made_of",
             "water = \"500 ml\", \"copper sulfate pentahydrate\" = \"45 "
             "g\", \"sulfuric acid 96 %\" = \"20 ml\""),
      text("name"),
      text("metal"),
      quantity("conductivity", kConductivity),
      {"efficiency", Form::quantities, kEfficiency},
      {"efficiency_at", Form::values, kDensity},
      quantity("limiting_current_density", kDensity),
      value("temperature", kTemperature),
      choice("stirring", {"still", "gentle", "strong", "rotating"}),
  };
}

std::vector<KeyInfo> part_keys() {
  return {
      must(text("shape")), point("at"),   value("turn", kAngle),
      point("axis"),       text("metal"), value("area", kArea),
  };
}

std::vector<KeyInfo> wire_keys() {
  return {
      name(),
      must(value("diameter", limits::length)),
      must(value("wetted", limits::length)),
      flag("insulated"),
  };
}

std::vector<KeyInfo> with_polarization(std::vector<KeyInfo> keys) {
  const std::vector<std::string_view> curve{"exchange_current_density",
                                            "tafel_slope"};
  std::vector<std::string_view> laws;
  for (const solver::LawKind& kind : solver::law_kinds())
    laws.push_back(kind.word);
  for (KeyInfo key :
       {choice("law", laws),
        instead(curve, quantity("polarization_resistance", kSlope)),
        instead(curve, value("polarization_at", kDensity)),
        quantity("polarization_offset", kOffset),
        quantity("exchange_current_density", kExchange),
        quantity("tafel_slope", kDecade),
        quantity("reverse_tafel_slope", kDecade)})
    keys.push_back(std::move(key));
  return keys;
}

/// Of cathodes: what the solution brings may bound their law.
std::vector<KeyInfo> with_mass_transfer(std::vector<KeyInfo> keys) {
  keys.push_back(flag("mass_transfer"));
  return keys;
}

/// What every solid beside the part takes, then its own.
/// @param gap  what makes sense between it and the part
std::vector<KeyInfo> solid_keys(const Limits& gap, std::vector<KeyInfo> own) {
  std::vector<KeyInfo> keys{
      name(),
      must(text("shape")),
      instead({"side", "gap"}, point("at")),
      instead({"at"}, choice("side", {"left", "right", "above", "below"})),
      instead({"at"}, value("gap", gap)),
      value("turn", kAngle),
  };
  keys.insert(keys.end(), own.begin(), own.end());
  return keys;
}

std::vector<KeyInfo> anode_keys() {
  return with_polarization(
      solid_keys(limits::length, {
                                     text("metal"),
                                     choice("kind", {"soluble", "inert"}),
                                     quantity("open_circuit_voltage", kOffset),
                                     quantity("bag_resistance", kSlope),
                                     quantity("limit", kDensity),
                                     text("rectifier"),
                                 }));
}

std::vector<KeyInfo> clip_keys() {
  return solid_keys(limits::length_or_0,
                    {quantity("contact_resistance", kLead)});
}

std::vector<KeyInfo> thief_keys() {
  return with_mass_transfer(with_polarization(
      solid_keys(limits::length, {quantity("resistance", kLead)})));
}

std::vector<KeyInfo> floating_keys() {
  return solid_keys(limits::length,
                    {
                        text("metal"),
                        quantity("polarization_resistance", kSlope),
                    });
}

std::vector<KeyInfo> mask_keys() {
  return {
      name(),
      text("on"),
      instead({"from", "to"}, {"faces", Form::texts}),
      instead({"faces"}, point("from")),
      instead({"faces"}, point("to")),
  };
}

std::vector<KeyInfo> rack_keys() {
  return {
      must({"at", Form::points, limits::coordinate}),
      {"contact_resistance", Form::quantities, kLead},
  };
}

std::vector<KeyInfo> supply_keys() {
  return {
      instead({"current_density", "voltage"}, quantity("current", kCurrent)),
      instead({"current", "voltage"}, quantity("current_density", kDensity)),
      instead({"current", "current_density"}, quantity("voltage", kVoltage)),
      value("voltage_limit", kVoltage),
      quantity("lead_resistance", kLead),
      instead({"voltage_limit"}, value("adapter_voltage", kVoltage)),
      value("adapter_current", kCurrent),
  };
}

std::vector<KeyInfo> rectifier_keys() {
  std::vector<KeyInfo> keys = supply_keys();
  keys.insert(keys.begin(), name());
  return keys;
}

std::vector<KeyInfo> target_keys() {
  return {
      instead({"standard", "class"}, value("thickness", kCoating)),
      instead({"thickness"}, text("standard")),
      instead({"thickness"}, text("class")),
      {"faces", Form::texts},
      value("contact_margin", limits::length_or_0),
      value("burning_current_density", kDensity),
      {"working_range", Form::value_pair, kDensity},
  };
}

std::vector<KeyInfo> accuracy_keys() {
  return {
      value("tolerance", kTolerance),
      value("averaging_length", kAveraging),
  };
}

std::vector<KeyInfo> step_keys() {
  return {
      quantity("duration", kDuration),
      {"flip", Form::flag},
      value("turn", kAngle),
      {"clips", Form::names},
      {"off", Form::names},
      {"lifted", Form::names},
      braced("turning", "positions = 4, dwell = \"30 s\""),
      braced("supply", "current = \"0.3 A\""),
      braced("rectifiers", "main = { current = \"0.2 A\" }"),
      value("temperature", kTemperature),
      quantity("conductivity", kConductivity),
  };
}

std::vector<KeyInfo> plan_keys() {
  return {
      choice("goal", {"time", "evenness", "metal"}),
      {"max_turns", Form::whole},
      {"max_anodes", Form::whole},
      value("max_time", kDuration),
      value("handling", kHandling),
      braced("vary", "\"anode.sheet.gap\" = \"15 mm .. 60 mm\""),
      braced("shield", "width = \"2 mm\", height = \"30 mm\", count = 2"),
      braced("thief", "diameter = \"2 mm\", count = 1"),
      flag("move_clip"),
      {"seed", Form::whole},
  };
}

std::vector<KeyInfo> correlated_keys() {
  KeyInfo of{"of", Form::texts}, by{"by", Form::factor, kCorrelation};
  of.example =
      "[\"solution.conductivity\", \"cathode.polarization_resistance\"]";
  by.example = "0.93";
  return {must(of), must(by)};
}

TableInfo single(std::string_view name, std::vector<KeyInfo> keys) {
  return {name, false, 1, false, false, std::move(keys)};
}

TableInfo several(std::string_view name, std::size_t most,
                  std::vector<KeyInfo> keys) {
  return {name, true, most, false, false, std::move(keys)};
}

TableInfo shaped(TableInfo table) {
  table.has_shape = true;
  return table;
}

TableInfo needed(TableInfo table) {
  table.needed = true;
  return table;
}

std::vector<TableInfo> build_tables() {
  return {
      single("", top_keys()),
      needed(single("tank", tank_keys())),
      needed(single("solution", solution_keys())),
      needed(shaped(single("part", part_keys()))),
      single("rack", rack_keys()),
      several("wire", 200, wire_keys()),
      shaped(several("clip", kMostSolids, clip_keys())),
      needed(shaped(several("anode", kMostSolids, anode_keys()))),
      shaped(several("shield", kMostSolids, solid_keys(limits::length, {}))),
      shaped(several("thief", kMostSolids, thief_keys())),
      shaped(several("floating", kMostSolids, floating_keys())),
      several("mask", 200, mask_keys()),
      single("cathode", with_mass_transfer(with_polarization({}))),
      single("supply", supply_keys()),
      several("rectifier", kMostRectifiers, rectifier_keys()),
      needed(several("step", kMostSteps, step_keys())),
      single("target", target_keys()),
      single("accuracy", accuracy_keys()),
      several("probe", 1000, {name(), must(point("at"))}),
      several("correlated", 200, correlated_keys()),
      single("plan", plan_keys()),
  };
}

}  // namespace

const std::vector<KeyInfo>& outline_keys() {
  static const std::vector<KeyInfo> keys{
      must(text("file")),
      {"scale", Form::factor, kScale},
      text("unit"),
  };
  return keys;
}

const std::vector<TableInfo>& case_tables() {
  static const std::vector<TableInfo> tables = build_tables();
  return tables;
}

}  // namespace thinspot::io
