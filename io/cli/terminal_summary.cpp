#include "io/cli/terminal_summary.hpp"

#include "io/cli/terminal.hpp"
#include "io/cli/wrap.hpp"
#include "io/number_text.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io::cli {

namespace {

using solver::PartResult;
using solver::Result;

/// Rows that a list may take before it is cut short; the page has them all.
constexpr std::size_t most_faces = 8;
constexpr std::size_t most_assumed = 6;
constexpr std::size_t most_probes = 4;
constexpr std::size_t most_cautions = 3;

std::string mean_line(const Result& result) {
  const PartResult& part = result.parts.front();
  const solver::BandedSpread& t = part.thickness;
  return wrapped(
      fmt::format(
          "Mean:     {} on {} cm²; {} g of {} in {}.",
          banded(to_um(t.value.mean),
                 {to_um(t.mean_band.low), to_um(t.mean_band.high)}, "µm"),
          digits(to_cm2(part.area)), digits(to_grams(part.mass)),
          result.used.solution.metal.name,
          duration_text(total_duration(result.used))),
      10);
}

std::string current_line(const Result& result) {
  const PartResult& part = result.parts.front();
  const solver::Spread& i = part.current_density.value;
  // Bare wires and further parts take their share.
  const bool shared = part.current < 0.999 * result.cell.current;
  std::string text = fmt::format("Current:  {} A", digits(result.cell.current));
  if (shared)
    text += fmt::format(" in all, {} A on the part", digits(part.current));
  text += fmt::format(": {} A/dm² on average, {} at most.",
                      digits(to_a_dm2(i.mean)), digits(to_a_dm2(i.max)));
  const solver::Target& target = result.used.target;
  if (result.steps.back().burning)
    text += fmt::format(" That is above {} A/dm²: expect burning.",
                        digits(to_a_dm2(*target.burning_current_density)));
  if (part.share_in_working_range)
    text += fmt::format(" {} % of the surface is in the working range.",
                        digits(100 * *part.share_in_working_range, 2));
  return wrapped(text, 10);
}

std::string probe_lines(const Result& result) {
  std::string text;
  const auto& probes = result.probes;
  const std::size_t shown = std::min(probes.size(), most_probes);
  for (std::size_t k = 0; k < shown; ++k)
    text += wrapped(fmt::format("Probe:    {}: {} µm, {} A/dm²", probes[k].name,
                                digits(to_um(probes[k].thickness)),
                                digits(to_a_dm2(probes[k].current_density))),
                    10);
  if (probes.size() > shown)
    text += fmt::format("… and {} more probes in the report\n",
                        probes.size() - shown);
  return text;
}

/// A number of a column: as many places as the column's largest needs for
/// three digits, so that the points stand below each other.
std::string cell(double value, double largest) {
  const double size = std::abs(largest);
  const int places =
      size > 0
          ? std::clamp(2 - static_cast<int>(std::floor(std::log10(size))), 0, 6)
          : 0;
  return fmt::format("{:9.{}f}", value, places);
}

std::string face_table(const PartResult& part) {
  const auto& faces = part.faces;
  const std::size_t rows = std::min(faces.size(), most_faces);
  std::size_t width = 8;
  double most_um = 0, most_a_dm2 = 0, most_cm2 = 0;
  for (std::size_t k = 0; k < rows; ++k) {
    width = std::max(width, columns(faces[k].name) + 2);
    most_um = std::max(most_um, to_um(faces[k].thickness.max));
    most_a_dm2 = std::max(most_a_dm2, to_a_dm2(faces[k].current_density.mean));
    most_cm2 = std::max(most_cm2, to_cm2(faces[k].area));
  }
  width = std::min<std::size_t>(width, 30);
  std::string text = fmt::format("{}{}{}\n", padded("Face", width),
                                 padded_left("least     mean     most µm", 30),
                                 padded_left("A/dm²      cm²", 17));
  for (std::size_t k = 0; k < rows; ++k) {
    const solver::FaceResult& f = faces[k];
    text += padded(f.name, width);
    text += cell(to_um(f.thickness.min), most_um);
    text += cell(to_um(f.thickness.mean), most_um);
    text += cell(to_um(f.thickness.max), most_um) + "   ";
    text += cell(to_a_dm2(f.current_density.mean), most_a_dm2);
    text += cell(to_cm2(f.area), most_cm2);
    text += f.judged ? "\n" : "  not judged\n";
  }
  if (faces.size() > rows)
    text +=
        fmt::format("… and {} more faces in the report\n", faces.size() - rows);
  return text;
}

std::string bare_lines(const PartResult& part) {
  std::string text;
  for (const solver::Bare& b : part.bare)
    text += wrapped(
        fmt::format("Stays bare: {}, {} to {} mm along the surface, "
                    "{}.",
                    b.face, digits(to_mm(b.from)), digits(to_mm(b.to)), b.why),
        2);
  return text;
}

std::string assumed_lines(const solver::Case& c) {
  if (c.assumed.empty()) return "";
  std::string text = "Assumed: ";
  const std::size_t shown = std::min(c.assumed.size(), most_assumed);
  for (std::size_t k = 0; k < shown; ++k)
    text += fmt::format("{}{} = {}", k == 0 ? "" : ", ", c.assumed[k].key,
                        c.assumed[k].value);
  if (c.assumed.size() > shown)
    text += fmt::format(" … and {} more", c.assumed.size() - shown);
  return wrapped(text + ". The report says why.", 2);
}

std::string caution_lines(const std::vector<std::string>& cautions) {
  std::string text;
  const std::size_t shown = std::min(cautions.size(), most_cautions);
  for (std::size_t k = 0; k < shown; ++k)
    text += wrapped("Caution: " + cautions[k], 2);
  if (cautions.size() > shown)
    text += fmt::format("… and {} more cautions in the report\n",
                        cautions.size() - shown);
  return text;
}

}  // namespace

void print_summary(const Result& result, const Words& words,
                   const std::filesystem::path& folder) {
  const PartResult& part = result.parts.front();
  print(stdout, wrapped(result.used.title));
  print_bold(stdout, wrapped(words.verdict));
  std::string text = "\n";
  text += wrapped(words.thin, 10);
  text += wrapped(words.heavy, 10);
  text += mean_line(result);
  text += current_line(result);
  text += probe_lines(result);
  text += bare_lines(part);
  text += "\n" + face_table(part) + "\n";
  for (const std::string& line : words.meter) text += wrapped(line, 2);
  text += wrapped(words.wagner, 2);
  text += assumed_lines(result.used);
  text += caution_lines(result.cautions);
  text += "Open " + (folder / "report.html").string() + "\n";
  print(stdout, text);
}

}  // namespace thinspot::io::cli
