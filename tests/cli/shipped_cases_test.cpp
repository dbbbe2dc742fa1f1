#include "tests/cli/shipped_cases.hpp"
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <vtkNew.h>
#include <vtkXMLParser.h>

#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

Run solve_shipped(const Scratch& scratch, const ShippedRun& shipped,
                  const std::string& out) {
  const Run run =
      run_thinspot(scratch.path(), arguments_of(shipped, scratch / out));
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  return run;
}

Run solve_shipped(const Scratch& scratch, const std::string& name,
                  const std::string& out) {
  return solve_shipped(scratch, {name, {shipped_case(name).string()}}, out);
}

/// Takes any elements: only the form counts.
class AnyXml : public vtkXMLParser {
 public:
  static AnyXml* New() { return new AnyXml; }

 protected:
  void StartElement(const char*, const char**) override {}
  void EndElement(const char*) override {}
  void ReportXmlParseError() override {}
};

/// Every key in a tree of objects and lists.
void collect_keys(const nlohmann::json& node, std::set<std::string>& keys) {
  for (const auto& item : node.items()) {
    if (node.is_object()) keys.insert(item.key());
    if (item.value().is_structured()) collect_keys(item.value(), keys);
  }
}

bool well_formed(const std::string& text) {
  vtkNew<AnyXml> parser;
  return parser->Parse(text.c_str()) == 1;
}

}  // namespace

TEST_CASE("the check of form finds what is malformed") {
  CHECK(well_formed("<svg><text>a</text></svg>"));
  CHECK_FALSE(well_formed("<svg><text>a</svg>"));
  CHECK_FALSE(well_formed("<svg>a & b</svg>"));
}

TEST_CASE("every shipped case solves, each file whole and listed") {
  const auto shipped = GENERATE(from_range(shipped_runs()));
  CAPTURE(shipped.name);
  const Scratch scratch;
  const Run run = solve_shipped(scratch, shipped, "out");
  CHECK_THAT(run.out, Contains("out/report.html"));

  const auto files = files_of(scratch / "out");
  const auto summary = nlohmann::json::parse(files.at("summary.json"));
  // Several steps have a strip, and a surface each.
  const std::size_t steps = summary["steps"].size();
  std::set<std::string> wanted{"report.html",   "card.svg",    "section.svg",
                               "thickness.svg", "why.svg",     "surface.csv",
                               "section.vtu",   "surface.vtp", "part.vtp",
                               "steps.pvd"};
  if (steps > 1) wanted.insert("steps.svg");
  for (std::size_t k = 1; steps > 1 && k <= steps; ++k)
    wanted.insert("step_" + std::to_string(k) + ".vtp");
  std::set<std::string> listed, there;
  for (const auto& file : summary["files"]) listed.insert(file["name"]);
  CHECK(listed == wanted);
  for (const auto& [name, text] : files) there.insert(name);
  // And the mark that the folder is ours.
  wanted.insert({"summary.json", ".thinspot"});
  CHECK(there == wanted);
  for (const auto& file : summary["files"]) {
    CAPTURE(file.dump());
    CHECK(files.at(file["name"].get<std::string>()).size() ==
          file["bytes"].get<std::size_t>());
  }
  CHECK(files.at("report.html").size() < 2'000'000);

  for (const std::string file :
       {"card.svg", "section.svg", "thickness.svg", "why.svg", "section.vtu",
        "surface.vtp", "part.vtp", "steps.pvd"}) {
    CAPTURE(file);
    CHECK(well_formed(files.at(file)));
    if (file.ends_with(".svg")) CHECK(files.at(file).size() < 400'000);
  }
  CHECK_THAT(files.at("section.svg"), Contains("<svg"));
  CHECK_THAT(files.at("report.html"), Contains("<html"));
  // What to do reads alike on the terminal, in the summary and on the card.
  const std::string card = files.at("card.svg");
  CHECK_THAT(card, Contains("width=\"148mm\" height=\"210mm\""));
  CHECK_THAT(files.at("report.html"), Contains(card));
  const auto& todo = summary["words"]["todo"];
  CHECK(todo.size() == summary["layers"].size());
  for (const auto& sentence : todo) {
    const auto text = sentence.get<std::string>();
    CHECK_THAT(card, Contains("<desc") && Contains(text));
    CHECK_THAT(run.out, Contains("To do:    " + text.substr(0, 30)));
  }

  // What the parts say adds up to the whole, to the six digits printed: each
  // number is off by 5e-6 of itself at most.
  const auto& part = summary["part"];
  double current = 0, area = 0;
  for (const auto& face : part["faces"]) {
    current += face["current_A"].get<double>();
    area += face["area_cm2"].get<double>();
  }
  CHECK(current == Approx(part["current_A"].get<double>()).epsilon(1e-5));
  CHECK(area == Approx(part["area_cm2"].get<double>()).epsilon(1e-5));
  double anodes = 0;
  for (const auto& anode : summary["anodes"])
    anodes += anode["current_A"].get<double>();
  CHECK(anodes ==
        Approx(summary["cell"]["current_A"].get<double>()).epsilon(1e-5));
  CHECK(summary["cell"]["resistance_ohm"].get<double>() ==
        Approx(summary["cell"]["voltage_V"].get<double>() /
               summary["cell"]["current_A"].get<double>())
            .epsilon(2e-5));
}

TEST_CASE("the same input gives the same bytes, times apart") {
  const Scratch scratch;
  solve_shipped(scratch, "token_one_sheet", "a");
  solve_shipped(scratch, "token_one_sheet", "b");
  auto first = files_of(scratch / "a");
  auto second = files_of(scratch / "b");
  auto summary_a = nlohmann::ordered_json::parse(first.at("summary.json"));
  auto summary_b = nlohmann::ordered_json::parse(second.at("summary.json"));
  CHECK(summary_a.erase("time_s") == 1);
  CHECK(summary_b.erase("time_s") == 1);
  CHECK(summary_a.dump() == summary_b.dump());
  first.erase("summary.json");
  second.erase("summary.json");
  REQUIRE(first.size() == second.size());
  for (const auto& [name, text] : first) {
    CAPTURE(name);
    CHECK(text == second.at(name));
  }
}

TEST_CASE("an override changes the result as physics has it") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const auto summary = [&](const std::string& set) {
    const Run run = run_thinspot(
        scratch.path(), {"solve", "case.toml", "--set", set, "--out", "out"});
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    return nlohmann::json::parse(content(scratch / "out/summary.json"));
  };
  // Faraday: thickness is proportional to time, to the digits printed.
  const auto once = summary("step.1.duration=40 min");
  const auto twice = summary("step.1.duration=80 min");
  for (const std::string key : {"min", "mean", "max"})
    CHECK(twice["part"]["thickness_um"][key].get<double>() ==
          Approx(2 * once["part"]["thickness_um"][key].get<double>())
              .epsilon(1e-5));
  CHECK(twice["target"]["time_needed_min"].get<double>() ==
        Approx(once["target"]["time_needed_min"].get<double>()).epsilon(1e-5));
  // One of several exclusive keys drops the others.
  const auto held = summary("supply.voltage=1 V");
  CHECK(held["cell"]["limited_by"] == "voltage");
  CHECK(held["cell"]["voltage_V"] == 1.0);
}

// What turns may burn at an angle that the figures of one angle do not show.
TEST_CASE("the largest current density is that of all angles") {
  const Scratch scratch;
  const Run run = run_thinspot(
      scratch.path(), {"solve", shipped_case("token_on_motor").string(),
                       "--set", "anode.sheet.at.x=33 mm", "--out", "out"});
  REQUIRE(run.status == 0);
  const auto summary =
      nlohmann::json::parse(content(scratch / "out/summary.json"));
  const auto& last = summary["steps"][1];
  const double most = last["max_current_density_A_dm2"];
  CHECK(last["burning"] == true);
  CHECK(most > summary["part"]["current_density_A_dm2"]["max"]);
  const auto line = run.out.find("on average, ");
  REQUIRE(line != std::string::npos);
  CHECK(std::stod(run.out.substr(line + 12)) == Approx(most).epsilon(0.01));
}

TEST_CASE("every file, field and column written is in the page on outputs") {
  const Scratch scratch;
  // One with growth, which most do without.
  const std::string name =
      GENERATE(as<std::string>{}, "token_one_sheet", "worn_pin_build_up");
  solve_shipped(scratch, name, "out");
  const std::string page =
      content(fs::path(THINSPOT_SOURCE) / "docs/outputs.md");
  std::set<std::string> names;
  collect_keys(nlohmann::json::parse(content(scratch / "out/summary.json")),
               names);
  for (const auto& [file, text] : files_of(scratch / "out")) {
    if (!file.starts_with('.')) names.insert(file);
    if (!file.ends_with(".csv")) continue;
    std::istringstream header(lines_of(text).front());
    for (std::string column; std::getline(header, column, ',');)
      names.insert(column);
  }
  CHECK(names.size() > 60);
  for (const std::string& field : names) {
    CAPTURE(field);
    CHECK(page.find("`" + field + "`") != std::string::npos);
  }
}
