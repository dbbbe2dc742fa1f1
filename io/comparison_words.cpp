#include "io/comparison_words.hpp"

#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/compared_figures.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

namespace {

using solver::Comparison;
using solver::Differing;
using solver::Figure;
using solver::KeptResult;
using solver::PartComparison;
using Of = Figure::Of;
using Verdict = Figure::Verdict;

constexpr const char* kNone = "–";
/// Below this share of what it was a change is not told in per cent.
constexpr double kSamePercent = 5e-4;
/// A coating of a hundredth of a micrometre is none: nothing is a share of it.
constexpr double kHardlyAny = 1e-8;

std::string value_text(const Figure& f, const std::optional<double>& value) {
  if (!value) return f.of == Of::time_needed ? "never" : kNone;
  const FigureName name = figure_name(f.of);
  if (f.of == Of::time_needed) return time_estimate(*value);
  if (f.of == Of::duration) return duration_text(*value);
  const std::string number =
      f.of == Of::steps ? digits(*value) : full_digits(name.factor * *value, 3);
  return *name.unit == '\0' ? number : number + " " + name.unit;
}

std::string difference_text(const Figure& f) {
  if (!f.a || !f.b) return f.a.has_value() == f.b.has_value() ? "the same" : "";
  if (f.verdict() == Verdict::alike) return "the same";
  const FigureName name = figure_name(f.of);
  const double by = *f.b - *f.a;
  const bool time = f.of == Of::time_needed || f.of == Of::duration;
  std::string text =
      time ? (by < 0 ? "−" : "+") + duration_text(std::abs(by))
           : signed_digits(name.factor * by, f.of == Of::steps ? 3 : 2);
  if (!time && *name.unit != '\0') text += std::string(" ") + name.unit;
  const std::string percent =
      f.of == Of::steps ? "" : change_in_percent(*f.a, *f.b);
  return percent.empty() ? text : text + " (" + percent + ")";
}

std::string remark_text(const Figure& f) {
  switch (f.verdict()) {
    case Verdict::within: return "within bands";
    case Verdict::beyond: return "beyond bands";
    case Verdict::alike:
    case Verdict::plain: break;
  }
  return "";
}

std::vector<ComparedRow> rows_of(const Comparison& c) {
  std::vector<ComparedRow> rows;
  for (const Figure& f : c.figures)
    rows.push_back({figure_name(f.of).said, value_text(f, f.a),
                    value_text(f, f.b), difference_text(f), remark_text(f)});
  return rows;
}

/// "13.4 µm in place of 8.92 µm".
std::string in_place_of(const Figure& f) {
  return value_text(f, f.b) + " in place of " + value_text(f, f.a);
}

bool differs(const Figure* f) { return f && f->verdict() != Verdict::alike; }

std::string target_words(const KeptResult& a, const KeptResult& b) {
  const auto &in_a = a.result.target, &in_b = b.result.target;
  if (!in_a || !in_b) return "";
  if (in_a->wanted != in_b->wanted)
    return fmt::format(
        "the targets differ: {} in A, which is {}, and {} in B, "
        "which is {}",
        micrometres(in_a->wanted), in_a->met ? "met" : "missed",
        micrometres(in_b->wanted), in_b->met ? "met" : "missed");
  const std::string target = "the target of " + micrometres(in_a->wanted);
  if (in_a->met && in_b->met) return "both meet " + target;
  if (!in_a->met && !in_b->met) return "both miss " + target;
  return (in_b->met ? "only B meets " : "only A meets ") + target;
}

std::string joined(const std::vector<std::string>& pieces) {
  std::string text;
  for (const std::string& piece : pieces)
    if (!piece.empty()) text += (text.empty() ? "" : "; ") + piece;
  return capital(text) + ".";
}

std::string verdict(const KeptResult& a, const KeptResult& b,
                    const Comparison& c) {
  bool any = false;
  for (const Figure& f : c.figures) any = any || differs(&f);
  bool places = false;
  for (const PartComparison& p : c.parts) places = places || p.gain || p.loss;
  if (!any && !places)
    return joined(
        {"B is as A, in every figure and at every point", target_words(a, b)});
  const Figure* thin = figure_of(c.figures, Of::thinnest_judged);
  if (!thin) thin = figure_of(c.figures, Of::thinnest);
  const Figure* even = figure_of(c.figures, Of::evenness);
  std::vector<std::string> said;
  if (differs(thin)) {
    const std::string percent = change_in_percent(*thin->a, *thin->b);
    said.push_back(fmt::format(
        "in B the thinnest spot {}gets {}{}",
        thin->of == Of::thinnest_judged ? "that counts " : "",
        in_place_of(*thin), percent.empty() ? "" : " (" + percent + ")"));
  } else {
    said.emplace_back("the thinnest spot gets the same in both");
  }
  if (differs(even) && even->a && even->b)
    said.push_back(
        fmt::format("it plates {} evenly, the heaviest spot {} times "
                    "the thinnest in place of {} times",
                    *even->b < *even->a ? "more" : "less", digits(*even->b),
                    digits(*even->a)));
  said.push_back(target_words(a, b));
  return joined(said);
}

std::string place_words(const char* what, const KeptResult& a,
                        const PartComparison& part, const Differing& d) {
  const std::string percent =
      d.a > kHardlyAny ? change_in_percent(d.a, d.b) : "";
  const std::string& name = a.result.parts[part.a].name;
  return fmt::format("{}: {} µm{}, {}{}: {} in place of {}{}.", what,
                     signed_digits(to_um(d.by())),
                     percent.empty() ? "" : " (" + percent + ")",
                     a.result.parts.size() > 1 ? "on " + name + ", " : "",
                     d.where, micrometres(d.b), micrometres(d.a),
                     !d.beyond   ? ""
                     : *d.beyond ? ", which is beyond the bands of both"
                                 : ", which is within their bands");
}

std::string percent_of(double share) {
  const double percent = 100 * share;
  if (share > 0 && percent < 1) return "less than 1 %";
  return fmt::format("{:.0f} %", percent);
}

std::vector<std::string> places(const KeptResult& a, const Comparison& c) {
  const PartComparison *gain = nullptr, *loss = nullptr;
  double area = 0, thicker = 0, thinner = 0, beyond = 0;
  bool banded = true;
  for (const PartComparison& p : c.parts) {
    if (p.gain && (!gain || p.gain->by() > gain->gain->by())) gain = &p;
    if (p.loss && (!loss || p.loss->by() < loss->loss->by())) loss = &p;
    area += p.area;
    thicker += p.area * p.thicker;
    thinner += p.area * p.thinner;
    beyond += p.area * p.beyond.value_or(0);
    banded = banded && p.beyond.has_value();
  }
  std::vector<std::string> said;
  if (gain) said.push_back(place_words("Most gained", a, *gain, *gain->gain));
  if (loss) said.push_back(place_words("Most lost", a, *loss, *loss->loss));
  if (!gain && !loss) return said;
  said.push_back(fmt::format(
      "B is thicker on {} of the surface that is plated in both, thinner on "
      "{}{}.",
      percent_of(thicker / area), percent_of(thinner / area),
      banded ? fmt::format("; on {} the bands of both do not meet",
                           percent_of(beyond / area))
             : ""));
  return said;
}

std::vector<std::string> notes(const KeptResult& a, const KeptResult& b,
                               const Comparison& c) {
  std::vector<std::string> said;
  bool banded = false;
  for (const Figure& f : c.figures) banded = banded || f.band_a || f.band_b;
  if (banded)
    said.emplace_back(
        "\"Within bands\" means that the inputs' own uncertainty might "
        "make "
        "as much of a difference; where both results rest on the same "
        "uncertain inputs, these move both alike, and the difference is surer "
        "than that.");
  double shift = 0;
  std::size_t uncompared = 0, plated = 0;
  for (const PartComparison& p : c.parts) {
    shift = std::max(shift, std::abs(p.shift));
    const auto& surface = a.result.parts[p.a].surface;
    for (std::size_t k = 0; k < surface.size(); ++k) {
      plated += surface[k].wetted;
      uncompared += surface[k].wetted && !p.both[k];
    }
  }
  if (uncompared > 0)
    said.push_back(fmt::format(
        "{} of {} plated points of A lie where B plates nothing; they are left "
        "out.",
        uncompared, plated));
  if (shift > 0)
    said.push_back(
        fmt::format("The part is drawn otherwise in B: places are "
                    "those of its material, {} mm further along "
                    "the outline there.",
                    digits(to_mm(shift))));
  if (a.result.parts.size() > 1 && b.result.parts.size() > 1)
    for (const PartComparison& p : c.parts)
      if (a.result.parts[p.a].name != b.result.parts[p.b].name) {
        said.emplace_back(
            "The copies have other names in B and are compared "
            "in their order.");
        break;
      }
  return said;
}

std::vector<ComparedRow> copies(const KeptResult& a, const KeptResult& b,
                                const Comparison& c) {
  std::vector<ComparedRow> rows;
  if (c.parts.size() < 2) return rows;
  for (const PartComparison& p : c.parts) {
    const solver::PartResult &in_a = a.result.parts[p.a],
                             &in_b = b.result.parts[p.b];
    const auto band =
        [](const solver::PartResult& part) -> std::optional<solver::Interval> {
      const solver::Interval& i = part.thickness.mean_band;
      if (i.high > i.low) return i;
      return std::nullopt;
    };
    const Figure f{
        Of::mean,
        in_a.thickness.value.mean,
        in_b.thickness.value.mean,
        band(in_a),
        band(in_b),
        in_a.thickness.mesh_error.mean + in_b.thickness.mesh_error.mean};
    rows.push_back({in_a.name, value_text(f, f.a), value_text(f, f.b),
                    difference_text(f), remark_text(f)});
  }
  return rows;
}

}  // namespace

FigureName figure_name(Of of) {
  switch (of) {
    case Of::thinnest_judged:
      return {"thinnest_judged_um", "Thinnest that counts", "µm", 1e6};
    case Of::thinnest: return {"thinnest_um", "Thinnest spot", "µm", 1e6};
    case Of::mean: return {"mean_um", "Mean", "µm", 1e6};
    case Of::heaviest: return {"heaviest_um", "Heaviest spot", "µm", 1e6};
    case Of::evenness: return {"evenness", "Heaviest over thinnest", "", 1};
    case Of::mass: return {"mass_g", "Metal deposited", "g", 1e3};
    case Of::voltage: return {"voltage_V", "Voltage, last step", "V", 1};
    case Of::current: return {"current_A", "Current, last step", "A", 1};
    case Of::duration: return {"duration_min", "Time", "min", 1.0 / 60};
    case Of::time_needed:
      return {"time_needed_min", "Time to the target", "min", 1.0 / 60};
    case Of::steps: return {"steps", "Steps", "", 1};
  }
  return {"", "", "", 1};
}

std::string signed_digits(double value, int count) {
  const std::string text = digits(std::abs(value), count);
  if (text == "0") return text;
  return (value < 0 ? "−" : "+") + text;
}

std::string change_in_percent(double before, double after) {
  if (!(std::abs(before) > 0)) return "";
  const double share = (after - before) / std::abs(before);
  if (std::abs(share) < kSamePercent || std::abs(share) > 100) return "";
  return signed_digits(100 * share, std::abs(share) < 0.1 ? 1 : 2) + " %";
}

ComparisonWords comparison_words(const KeptResult& a, const KeptResult& b,
                                 const Comparison& c) {
  return {verdict(a, b, c), places(a, c), notes(a, b, c), rows_of(c),
          copies(a, b, c)};
}

}  // namespace thinspot::io
