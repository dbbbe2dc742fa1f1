// Which keys leave geometry and meshes as they are.
#include "io/sweep_sharing.hpp"
#include "io/sweep.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

const io::SweepAxis kNumbers = io::sweep_axis("k=1,2");
const io::SweepAxis kWords = io::sweep_axis("k=[1],[2]");

bool leaves(std::string_view table, std::string_view key,
            const io::SweepAxis& axis = kNumbers, const solver::Case& c = {}) {
  const io::TableInfo& info = io::table_info(table);
  const io::AddressedTable place{"", nullptr, 0, &info,
                                 io::keys_with_shape(info, "")};
  const io::KeyInfo* const found = io::find_key(place.keys, key);
  CAPTURE(table, key);
  REQUIRE(found);
  return io::leaves_meshes({&place, found}, axis, c);
}

/// All that sections, meshes, areas and significant surfaces are made of.
std::string geometry_of(const solver::Case& c) {
  std::string text = fmt::format(
      "{} {} {} {} {} {} {} {} {} {};", int(c.section.cut),
      int(c.section.tank.shape), c.section.tank.width, c.section.tank.height,
      c.section.tank.level, c.depth.value_or(-1), c.part_area.value_or(-1),
      c.accuracy.tolerance, c.accuracy.averaging_length,
      c.target.contact_margin);
  const auto put = [&](const mesh::Point& p) {
    text += fmt::format(" {} {}", p.x(), p.y());
  };
  for (const mesh::Solid& s : c.section.solids) {
    text += fmt::format("{} {} {} {} {} {} {} {}", s.key, int(s.role), s.shape,
                        s.copy, s.turn, s.side ? int(*s.side) : -1, s.gap,
                        s.drawn.loops.size());
    for (const auto& [name, size] : s.sizes)
      text += fmt::format(" {} {}", name, size);
    put(s.at);
    put(s.axis);
    text += ";";
  }
  for (const mesh::Mask& m : c.section.masks) {
    text += m.key + m.on;
    for (const std::string& face : m.faces) text += " " + face;
    for (std::size_t k = 0; m.between && k < 2; ++k) put((*m.between)[k]);
    text += ";";
  }
  for (const std::string& face : c.target.faces) text += face + " ";
  for (const solver::Wire& w : c.wires)
    text += fmt::format("{} {} {};", w.diameter, w.wetted, w.insulated);
  for (const solver::Clip& clip : c.clips)
    for (const std::size_t s : clip.solids) text += fmt::format(" {}", s);
  for (const auto& a : c.anodes)
    text += fmt::format(" {} {}", a.solid, a.rectifier);
  for (const auto& t : c.thieves) text += fmt::format(" {}", t.solid);
  for (const auto& f : c.floating) text += fmt::format(" {}", f.solid);
  for (const solver::Probe& p : c.probes) put(p.at);
  for (std::size_t k = 0; c.rack && k < c.rack->at.size(); ++k)
    put(c.rack->at[k]);
  for (const solver::Step& s : c.steps) {
    text += fmt::format("; {} {}", s.motion.flip, s.motion.turn);
    for (const std::string& name : s.off) text += " off " + name;
    for (const std::string& name : s.lifted) text += " lifted " + name;
    text += s.clips ? " clips" : "";
    if (s.clips)
      for (const std::string& name : *s.clips) text += " clip " + name;
    if (s.turning)
      text += fmt::format(" {} {} {} {}", s.turning->positions,
                          s.turning->dwell, s.turning->rate, s.duration.value);
  }
  return text;
}

constexpr const char* kAll = R"([[wire]]
diameter = "0.8 mm"
wetted = "20 mm"
[[clip]]
name = "strip"
shape = "plate"
width = "1 mm"
height = "45 mm"
side = "above"
gap = "0 mm"
contact_resistance = "5 mohm"
[[thief]]
name = "wire"
shape = "rod"
diameter = "2 mm"
at = ["70 mm", "50 mm"]
resistance = "1 ohm"
polarization_resistance = "1 ohm cm2"
[[floating]]
name = "loose"
shape = "rod"
diameter = "2 mm"
at = ["70 mm", "30 mm"]
[target]
thickness = "5 um"
contact_margin = "1 mm"
[[probe]]
name = "p"
at = ["45 mm", "65 mm"]
)";

std::string all_tables() {
  return and_also(kAll) +
         "[[step]]\nturn = \"90 deg\"\ntemperature = \"30 degC\"\n";
}

std::string with_rectifiers() {
  return with(with(sound_case(), "gap = \"35 mm\"",
                   "gap = \"35 mm\"\nrectifier = \"main\""),
              "[supply]", "[[rectifier]]\nname = \"main\"");
}

/// Values that a key may be set to, as far apart as they can be.
std::vector<std::string> values_of(const io::KeyInfo& key) {
  if (key.form == io::Form::choice)
    return {key.choices.begin(), key.choices.end()};
  const std::string low(key.limits.low), high(key.limits.high);
  if (key.form != io::Form::value_pair) return {low, high};
  return {"[\"" + low + "\", \"1 A/dm2\"]", "[\"2 A/dm2\", \"" + high + "\"]"};
}

}  // namespace

TEST_CASE("the keys that leave meshes as they are, and no others", "[sweep]") {
  std::set<std::string> shared;
  for (const io::TableInfo& table : io::case_tables())
    for (const io::KeyInfo& key : io::keys_with_shape(table, ""))
      if (leaves(table.name, key.name))
        shared.insert(fmt::format("{}.{}", table.name, key.name));
  std::set<std::string> wanted;
  const auto add = [&](const std::string& table,
                       const std::vector<std::string>& keys) {
    for (const std::string& key : keys) wanted.insert(table + "." + key);
  };
  const std::vector<std::string> law{"law",
                                     "polarization_resistance",
                                     "polarization_at",
                                     "tafel_slope",
                                     "exchange_current_density",
                                     "polarization_offset",
                                     "reverse_tafel_slope"};
  const std::vector<std::string> supply{
      "current",         "current_density", "voltage",        "voltage_limit",
      "lead_resistance", "adapter_voltage", "adapter_current"};
  for (const char* table : {"cathode", "anode", "thief"}) add(table, law);
  for (const char* table : {"supply", "rectifier"}) add(table, supply);
  add("anode", {"open_circuit_voltage", "bag_resistance", "limit"});
  add("thief", {"resistance"});
  add("clip", {"contact_resistance"});
  add("floating", {"polarization_resistance"});
  add("solution", {"conductivity", "temperature", "efficiency",
                   "limiting_current_density"});
  add("step", {"duration", "temperature", "conductivity"});
  add("target", {"thickness", "burning_current_density", "working_range"});
  CHECK(shared == wanted);
}

TEST_CASE("what decides whether a key leaves meshes", "[sweep]") {
  // A table over current density comes with another law.
  CHECK_FALSE(leaves("solution", "efficiency", kWords));
  CHECK(leaves("cathode", "law", kWords));
  solver::Case c;
  c.steps.resize(2);
  CHECK(leaves("step", "duration", kNumbers, c));
  // How long a step is decides which positions of a turn it reaches.
  c.steps.back().turning.emplace();
  CHECK_FALSE(leaves("step", "duration", kNumbers, c));
  CHECK(leaves("supply", "current", kNumbers, c));
  // Where the surface moves with the deposit all moves it.
  c.growth = true;
  for (const char* key : {"current", "voltage", "lead_resistance"})
    CHECK_FALSE(leaves("supply", key, kNumbers, c));
  CHECK_FALSE(leaves("target", "thickness", kNumbers, c));
}

TEST_CASE("what shares meshes has the same geometry in its case", "[sweep]") {
  std::size_t looked_at = 0;
  for (const std::string& text : {all_tables(), with_rectifiers()}) {
    const std::string before = geometry_of(read_text(text).content);
    put_beside_case("case.toml", text);
    const io::Node document = io::read_document(case_folder() / "case.toml");
    const auto all = io::addressed_tables(document);
    for (const std::string& name : io::all_addresses(all)) {
      const auto address = io::resolve(all, name);
      REQUIRE(address);
      if (!io::leaves_meshes(*address, kNumbers, {})) continue;
      for (const std::string& value : values_of(*address->key)) {
        CAPTURE(name, value);
        std::string after;
        try {
          after = geometry_of(
              io::read_case(document, "case.toml", {name + "=" + value})
                  .content);
        } catch (const InputError&) {
          continue;  // not with what else the case has
        }
        CHECK(after == before);
        ++looked_at;
      }
    }
  }
  CHECK(looked_at > 60);
}

TEST_CASE("what does not share them has another", "[sweep]") {
  const std::string text = all_tables();
  const std::string before = geometry_of(read_text(text).content);
  for (const char* set :
       {"anode.sheet.gap=30 mm", "part.diameter=20 mm", "part.at.x=44 mm",
        "depth=10 mm", "accuracy.averaging_length=0.2 mm",
        "accuracy.tolerance=1 %", "target.faces=[\"right\"]",
        "target.contact_margin=2 mm", "wire.1.diameter=1 mm",
        "wire.1.insulated=true", "step.2.turn=45 deg", "step.2.clips=[]",
        "probe.p.at.y=60 mm", "tank.level=90 mm", "thief.wire.diameter=3 mm",
        "step.1.turning={positions = 4, dwell = \"30 s\"}"}) {
    CAPTURE(set);
    const auto problems = problems_in(text, {set});
    CAPTURE(problems);
    REQUIRE(problems.empty());
    CHECK(geometry_of(read_text(text, {set}).content) != before);
    const std::string key =
        std::string(set).substr(0, std::string(set).find('='));
    const auto all =
        io::addressed_tables(io::parse_document(text, "case.toml"));
    CHECK_FALSE(io::leaves_meshes(*io::resolve(all, key), kNumbers, {}));
  }
}

TEST_CASE("growth or turning that is varied counts where it is", "[sweep]") {
  // Not in the file itself: only some of the points grow, or turn.
  CHECK_FALSE(
      sweep_of({"growth=false,true", "supply.current=0.2 A,0.4 A"}).shares());
  const std::string turn =
      "step.1.turning={positions = 4, dwell = \"30 s\"},"
      "{positions = 3, dwell = \"30 s\"}";
  CHECK_FALSE(sweep_of({turn, "step.1.duration=1 min,2 min"}).shares());
  CHECK(sweep_of({turn, "supply.current=0.2 A,0.4 A"}).shares());
  CHECK(sweep_of({"supply.current=0.2 A,0.4 A"}).shares());
}

TEST_CASE("a case that lacks what is varied shares all the same", "[sweep]") {
  const std::string text =
      with(sound_case(), "[supply]\ncurrent = \"0.33 A\"\n", "");
  REQUIRE_FALSE(problems_in(text).empty());
  const io::Sweep sweep = sweep_of({"supply.current=0.2 A,0.4 A"}, 0, text);
  CHECK(sweep.shares());
  CHECK(sweep.corners(0).size() == 2);
}
