#include "io/case_keys.hpp"

#include "mesh/shape.hpp"

#include <algorithm>

namespace thinspot::io {

namespace {

using enum Dimension;

constexpr Limits kArea{area, "0.01 mm2", "100 m2"};
constexpr Limits kVolume{volume, "1 ml", "100 m3"};
constexpr Limits kAngle{angle, "-360 deg", "360 deg"};
constexpr Limits kConductivity{conductivity, "1e-6 S/m", "1000 S/m"};
constexpr Limits kEfficiency{fraction, "0.01 %", "100 %"};
constexpr Limits kTemperature{temperature, "-20 degC", "110 degC"};
constexpr Limits kDensity{current_density, "1e-6 A/dm2", "10000 A/dm2"};
constexpr Limits kCurrent{current, "1 nA", "100 kA"};
constexpr Limits kVoltage{voltage, "1 uV", "1000 V"};
constexpr Limits kOffset{voltage, "-10 V", "10 V"};
constexpr Limits kLead{resistance, "0 ohm", "1000 ohm"};
constexpr Limits kSlope{area_resistance, "0 ohm cm2", "1e6 ohm cm2"};
constexpr Limits kDuration{duration, "1 ms", "3650 day"};
constexpr Limits kCoating{length, "1 nm", "10 mm"};
constexpr Limits kTolerance{fraction, "0.001 %", "20 %"};
constexpr Limits kAveraging{length, "1 um", "10 mm"};

const std::vector<KeyInfo> kPolarization{
    {"polarization_resistance", Form::quantity, kSlope},
    {"polarization_at", Form::value, kDensity},
    {"polarization_offset", Form::quantity, kOffset},
};

std::vector<KeyInfo> joined(std::vector<KeyInfo> keys,
                            const std::vector<KeyInfo>& more) {
  keys.insert(keys.end(), more.begin(), more.end());
  return keys;
}

std::vector<TableInfo> build_tables() {
  std::vector<TableInfo> tables;
  tables.push_back(
      {"",
       false,
       1,
       false,
       false,
       {
           {"schema", Form::whole, {}, true},
           {"title", Form::text},
           {"section", Form::choice, {}, false, {"planar", "axisymmetric"}},
           {"view", Form::choice, {}, false, {"side", "plan"}},
           {"depth", Form::value, limits::length},
       }});
  tables.push_back(
      {"tank",
       false,
       1,
       false,
       true,
       {
           {"shape", Form::choice, {}, false, {"box", "round"}},
           {"width", Form::value, limits::length},
           {"height", Form::value, limits::length},
           {"diameter", Form::value, limits::length},
           {"level",
            Form::value,
            limits::length,
            false,
            {},
            {"volume", "depth"}},
           {"volume", Form::value, kVolume, false, {}, {"level"}},
           {"depth", Form::value, limits::length, false, {}, {"level"}},
       }});
  tables.push_back({"solution",
                    false,
                    1,
                    false,
                    true,
                    {
                        {"use", Form::text},
                        {"name", Form::text},
                        {"metal", Form::text, {}, true},
                        {"conductivity", Form::quantity, kConductivity, true},
                        {"efficiency", Form::quantity, kEfficiency},
                        {"limiting_current_density", Form::value, kDensity},
                        {"temperature", Form::value, kTemperature},
                        {"stirring",
                         Form::choice,
                         {},
                         false,
                         {"still", "gentle", "strong", "rotating"}},
                    }});
  tables.push_back({"part",
                    false,
                    1,
                    true,
                    true,
                    {
                        {"shape", Form::text, {}, true},
                        {"at", Form::point, limits::coordinate, true},
                        {"turn", Form::value, kAngle},
                        {"metal", Form::text},
                        {"area", Form::value, kArea},
                    }});
  tables.push_back({"wire",
                    true,
                    200,
                    false,
                    false,
                    {
                        {"name", Form::name},
                        {"diameter", Form::value, limits::length, true},
                        {"wetted", Form::value, limits::length, true},
                        {"insulated", Form::flag},
                    }});
  tables.push_back(
      {"anode", true, 200, true, true,
       joined(
           {
               {"name", Form::name},
               {"shape", Form::text, {}, true},
               {"at",
                Form::point,
                limits::coordinate,
                false,
                {},
                {"side", "gap"}},
               {"side",
                Form::choice,
                {},
                false,
                {"left", "right", "above", "below"},
                {"at"}},
               {"gap", Form::value, limits::length, false, {}, {"at"}},
               {"turn", Form::value, kAngle},
               {"metal", Form::text},
               {"kind", Form::choice, {}, false, {"soluble", "inert"}},
               {"open_circuit_voltage", Form::quantity, kOffset},
               {"bag_resistance", Form::quantity, kSlope},
           },
           kPolarization)});
  tables.push_back({"cathode", false, 1, false, false,
                    joined(
                        {
                            {"law", Form::choice, {}, false, {"linear"}},
                        },
                        kPolarization)});
  tables.push_back({"supply",
                    false,
                    1,
                    false,
                    true,
                    {
                        {"current",
                         Form::quantity,
                         kCurrent,
                         false,
                         {},
                         {"current_density", "voltage"}},
                        {"current_density",
                         Form::quantity,
                         kDensity,
                         false,
                         {},
                         {"current", "voltage"}},
                        {"voltage",
                         Form::quantity,
                         kVoltage,
                         false,
                         {},
                         {"current", "current_density"}},
                        {"voltage_limit", Form::value, kVoltage},
                        {"lead_resistance", Form::quantity, kLead},
                    }});
  tables.push_back({"step",
                    true,
                    1,
                    false,
                    true,
                    {
                        {"duration", Form::quantity, kDuration, true},
                    }});
  tables.push_back({"target",
                    false,
                    1,
                    false,
                    false,
                    {
                        {"thickness", Form::value, kCoating},
                        {"faces", Form::texts},
                        {"contact_margin", Form::value, limits::length_or_0},
                        {"burning_current_density", Form::value, kDensity},
                        {"working_range", Form::value_pair, kDensity},
                    }});
  tables.push_back({"accuracy",
                    false,
                    1,
                    false,
                    false,
                    {
                        {"tolerance", Form::value, kTolerance},
                        {"averaging_length", Form::value, kAveraging},
                    }});
  tables.push_back({"probe",
                    true,
                    1000,
                    false,
                    false,
                    {
                        {"name", Form::name},
                        {"at", Form::point, limits::coordinate, true},
                    }});
  return tables;
}

}  // namespace

const std::vector<TableInfo>& case_tables() {
  static const std::vector<TableInfo> tables = build_tables();
  return tables;
}

const TableInfo& table_info(std::string_view name) {
  return *std::find_if(case_tables().begin(), case_tables().end(),
                       [&](const TableInfo& t) { return t.name == name; });
}

bool is_radius(std::string_view size_key) {
  return size_key.ends_with("radius");
}

const KeyInfo* find_key(const std::vector<KeyInfo>& keys,
                        std::string_view name) {
  const auto found =
      std::find_if(keys.begin(), keys.end(),
                   [&](const KeyInfo& k) { return k.name == name; });
  return found == keys.end() ? nullptr : &*found;
}

std::vector<KeyInfo> keys_with_shape(const TableInfo& table,
                                     std::string_view shape) {
  std::vector<KeyInfo> keys = table.keys;
  if (!table.has_shape) return keys;
  const mesh::ShapeKind* only = mesh::find_shape(shape);
  for (const mesh::ShapeKind& kind : mesh::shape_kinds()) {
    if (only && kind.name != only->name) continue;
    for (const mesh::SizeKey& size : kind.sizes)
      if (!find_key(keys, size.name))
        keys.push_back(
            {size.name, Form::value,
             is_radius(size.name) ? limits::length_or_0 : limits::length,
             only && size.required});
    for (std::string_view flag : kind.flags)
      if (!find_key(keys, flag)) keys.push_back({flag, Form::flag});
  }
  return keys;
}

}  // namespace thinspot::io
