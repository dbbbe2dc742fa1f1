// Every caution that a case calls for is said by check, by solve and on the
// page, in the same words.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>

using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

/// Without line breaks and indents.
std::string flowing(const std::string& text) {
  std::string out;
  for (const char ch : text) {
    const char next = ch == '\n' ? ' ' : ch;
    if (next == ' ' && !out.empty() && out.back() == ' ') continue;
    out += next;
  }
  return out;
}

struct Cause {
  std::string id;
  std::vector<std::string> set;
};

// What is said of every set-up is asked for without a cause.
const std::vector<Cause>& causes() {
  static const std::vector<Cause> list{
      {"reversed leads", {}},
      {"acid into water", {}},
      {"food", {}},
      {"unattended", {}},
      {"labels", {}},
      {"first aid", {}},
      {"waste", {}},
      {"supply", {}},
      {"coins", {}},
      {"adapter", {"supply.adapter_voltage=9 V"}},
      {"chlorine",
       {"anode.sheet.kind=inert", "anode.sheet.open_circuit_voltage=1 V",
        "solution.use=Watts nickel", "solution.metal=nickel"}},
      {"nickel salts",
       {"anode.sheet.metal=nickel", "anode.sheet.kind=soluble"}},
      {"stainless anode",
       {"anode.sheet.metal=stainless steel", "anode.sheet.kind=soluble"}},
      {"cyanide", {"solution.name=copper cyanide"}},
      {"chromium(VI)", {"solution.name=chromic acid"}},
      {"peroxide", {"solution.name=copper acetate"}},
      {"acid eats part", {"part.metal=aluminium"}},
      {"embrittlement", {"part.metal=spring steel"}},
      {"hydrogen", {"solution.efficiency=0.9"}},
  };
  return list;
}

Run run_with(const Scratch& scratch, std::vector<std::string> arguments,
             const std::vector<std::string>& set) {
  for (const std::string& s : set) {
    arguments.emplace_back("--set");
    arguments.push_back(s);
  }
  const Run run = run_thinspot(scratch.path(), arguments);
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  return run;
}

}  // namespace

TEST_CASE("cautions are the same in check, solve and page") {
  const Scratch scratch;
  const std::string file = shipped_case("token_one_sheet").string();
  for (const Cause& cause : causes()) {
    CAPTURE(cause.id);
    std::vector<std::string> set = cause.set;
    set.emplace_back("accuracy.tolerance=2 %");
    const Run checked =
        run_with(scratch, {"check", file, "--full", "--out", "x.svg"}, set);
    const Run solved = run_with(scratch, {"solve", file, "--out", "out"}, set);
    const auto summary =
        nlohmann::json::parse(content(scratch / "out/summary.json"));
    const auto& all = summary["cautions"];
    const auto& sources = summary["caution_sources"];
    REQUIRE(all.size() == sources.size());
    const auto found = std::find_if(
        sources.begin(), sources.end(),
        [&](const auto& source) { return source["id"] == cause.id; });
    CHECK(found != sources.end());
    const std::string told = flowing(checked.out);
    const std::string page = content(scratch / "out/report.html");
    for (const auto& text : all) {
      CHECK_THAT(told, Contains("Caution: " + text.get<std::string>()));
      // On the page as JSON has it.
      CHECK_THAT(page, Contains(text.dump().substr(1, 40)));
    }
    CHECK_THAT(flowing(solved.out),
               Contains("Caution: " + all[0].get<std::string>()));
    CHECK_THAT(solved.out, Contains("more cautions in the report"));
  }
}

TEST_CASE("a set-up without a cause is not told of it") {
  const Scratch scratch;
  const Run run = run_with(scratch,
                           {"check", shipped_case("token_one_sheet").string(),
                            "--full", "--out", "x.svg"},
                           {});
  const std::string told = flowing(run.out);
  for (const char* words : {"An adapter limits no current", "Chloride meets",
                            "Nickel salts", "Cyanide never", "Chromium(VI)",
                            "stainless steel", "brittle", "dissolve in acid"})
    CHECK_THAT(told, !Contains(words));
}
