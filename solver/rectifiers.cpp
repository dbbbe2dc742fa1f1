#include "solver/rectifiers.hpp"

#include "mesh/errors.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Currents are linear in the voltages of all plus rails: slope * rails + rest.
struct RailLines {
  MatrixXd slope;  ///< of what each rectifier gives to the section
  VectorXd rest;
  VectorXd part_slope, cathode_slope;  ///< of what parts, all cathodes take
  double part_rest = 0, cathode_rest = 0;
};

struct Sums {
  VectorXd given;
  double part = 0, cathodes = 0;
};

Sums sums_of(const WorkingPoint& w, const VectorXd& current, Index rails) {
  Sums s{VectorXd::Zero(rails), 0, 0};
  for (std::size_t e = 0; e < w.laws.size(); ++e) {
    const ElectrodeLaw& law = w.laws[e];
    const double out = current(static_cast<Index>(e));
    if (law.anode) s.given(static_cast<Index>(law.rectifier)) -= out;
    if (law.anode || law.floating) continue;
    s.cathodes += out;
    if (law.part) s.part += out;
  }
  return s;
}

RailLines rail_lines(const WorkingPoint& w, const MatrixXd& conductance,
                     Index rails) {
  const auto at = [&](const VectorXd& voltages) {
    return sums_of(w, conductance * drives(w.laws, conductance, voltages),
                   rails);
  };
  const Sums none = at(VectorXd::Zero(rails));
  RailLines lines{MatrixXd(rails, rails), none.given, VectorXd(rails),
                  VectorXd(rails),        none.part,  none.cathodes};
  for (Index k = 0; k < rails; ++k) {
    const Sums one = at(VectorXd::Unit(rails, k));
    lines.slope.col(k) = one.given - none.given;
    lines.part_slope(k) = one.part - none.part;
    lines.cathode_slope(k) = one.cathodes - none.cathodes;
  }
  return lines;
}

/// What a rectifier keeps to.
enum class Keeps {
  setting,
  limit,
  blocked,  ///< others drive its anodes beyond its own voltage, and it takes no
            ///< current back
  nothing   ///< no anode at work
};

class Search {
 public:
  Search(const RailLines& lines, const Case& c, const SectionScale& scale,
         std::vector<Keeps> keeps)
      : lines_(lines), case_(c), scale_(scale), first_(std::move(keeps)) {}

  /// Voltages of the rails at which each rectifier keeps to its setting or its
  /// limit. Raising one rail never draws less from it nor more from another,
  /// so that changing over all that are beyond what they do not keep to lowers
  /// every rail: no choice comes twice, and the search ends. In practice it
  /// takes no more rounds than there are rectifiers.
  /// @param more  current of a rectifier over what it gives to the section
  VectorXd rails(double more) {
    keeps_ = first_;
    for (;;) {
      const VectorXd voltages = within_limits(more);
      // That raises all rails: once blocked, blocked for good.
      if (!block(voltages)) return voltages;
    }
  }

  const std::vector<Keeps>& keeps() const { return keeps_; }

 private:
  const Supply& supply(Index k) const {
    return case_.rectifiers[static_cast<std::size_t>(k)].supply;
  }

  bool by_voltage(Index k) const {
    return keeps_[static_cast<std::size_t>(k)] == Keeps::limit ||
           supply(k).voltage;
  }

  VectorXd within_limits(double more) {
    for (int round = 0; round < 1000; ++round) {
      const VectorXd voltages = solve(more);
      if (!change_over(voltages, more)) return voltages;
    }
    throw NoResultError(
        "the limits of the rectifiers do not settle: one that reaches its own "
        "brings another out of its; set one by its current alone, without a "
        "voltage_limit");
  }

  VectorXd solve(double more) const {
    const auto n = static_cast<Index>(keeps_.size());
    MatrixXd system = MatrixXd::Identity(n, n);
    VectorXd right = VectorXd::Zero(n);
    for (Index k = 0; k < n; ++k) {
      const Supply& s = supply(k);
      if (keeps_[static_cast<std::size_t>(k)] == Keeps::nothing) continue;
      if (keeps_[static_cast<std::size_t>(k)] == Keeps::blocked) {
        system.row(k) = lines_.slope.row(k);
        right(k) = -lines_.rest(k);
      } else if (by_voltage(k)) {
        const double lead = s.lead_resistance.value * more;
        system.row(k) += lead * lines_.slope.row(k);
        right(k) = (s.voltage ? s.voltage->value : *s.voltage_limit) -
                   lead * lines_.rest(k);
      } else if (s.current) {
        system.row(k) = more * lines_.slope.row(k);
        right(k) = s.current->value - more * lines_.rest(k);
      } else {
        system.row(k) = lines_.part_slope.transpose();
        right(k) =
            s.current_density->value * scale_.part_area - lines_.part_rest;
      }
    }
    const Eigen::FullPivLU<MatrixXd> factor(system);
    if (!factor.isInvertible()) throw NoResultError(kNoCurrent);
    return factor.solve(right);
  }

  /// True where any rectifier is to keep to the other of the two from now on.
  bool change_over(const VectorXd& voltages, double more) {
    constexpr double beyond = 1 + 1e-12;
    const VectorXd current = more * (lines_.slope * voltages + lines_.rest);
    const double part = lines_.part_slope.dot(voltages) + lines_.part_rest;
    bool any = false;
    for (Index k = 0; k < voltages.size(); ++k) {
      Keeps& keeps = keeps_[static_cast<std::size_t>(k)];
      const Supply& s = supply(k);
      if (keeps == Keeps::nothing || keeps == Keeps::blocked || s.voltage ||
          !s.voltage_limit)
        continue;
      const double terminals =
          voltages(k) + s.lead_resistance.value * current(k);
      const bool over =
          keeps == Keeps::setting ? terminals > beyond * *s.voltage_limit
          : s.current
              ? current(k) > beyond * s.current->value
              : part > beyond * s.current_density->value * scale_.part_area;
      if (!over) continue;
      keeps = keeps == Keeps::setting ? Keeps::limit : Keeps::setting;
      any = true;
    }
    return any;
  }

  /// True where any gets current back, and is blocked from now on.
  bool block(const VectorXd& voltages) {
    const VectorXd given = lines_.slope * voltages + lines_.rest;
    const double least = -1e-12 * given.cwiseAbs().maxCoeff();
    bool any = false;
    for (Index k = 0; k < voltages.size(); ++k) {
      Keeps& keeps = keeps_[static_cast<std::size_t>(k)];
      if (keeps == Keeps::nothing || keeps == Keeps::blocked ||
          given(k) >= least)
        continue;
      keeps = Keeps::blocked;
      any = true;
    }
    return any;
  }

  const RailLines& lines_;
  const Case& case_;
  const SectionScale& scale_;
  std::vector<Keeps> first_, keeps_;
};

/// The current of bare wires comes on top of the section's: rectifiers give it
/// in the shares that they give to the section. Where thieves take a share that
/// moves with the voltages this takes a few rounds.
struct Found {
  VectorXd voltages;
  double more = 1;
};

Found find_rails(Search& search, const RailLines& lines, double wires) {
  Found f;
  for (int round = 0; round < 100; ++round) {
    f.voltages = search.rails(f.more);
    const double cathodes =
        lines.cathode_slope.dot(f.voltages) + lines.cathode_rest;
    const double part = lines.part_slope.dot(f.voltages) + lines.part_rest;
    const double before = f.more;
    if (wires > 0 && cathodes > 0) f.more = 1 + wires * part / cathodes;
    if (std::abs(f.more - before) <= 1e-14 * f.more) return f;
  }
  throw NoResultError(
      "what the rectifiers give to the wires does not settle: the wires take "
      "nearly all of it; insulate them, or wet less of them");
}

std::string word_for(Keeps keeps, const Supply& s) {
  if (keeps == Keeps::nothing) return "idle";
  if (keeps == Keeps::blocked) return "blocked";
  if (keeps == Keeps::limit) return "voltage limit";
  if (s.voltage) return "voltage";
  return s.current ? "current" : "current density";
}

std::vector<Keeps> at_first(const WorkingPoint& w, std::size_t count) {
  std::vector<Keeps> keeps(count, Keeps::nothing);
  for (const ElectrodeLaw& law : w.laws)
    if (law.anode) keeps[law.rectifier] = Keeps::setting;
  return keeps;
}

}  // namespace

void operate_rectifiers(WorkingPoint& w, const Case& c,
                        const SectionScale& scale) {
  const std::size_t count = c.rectifiers.size();
  const MatrixXd g = w.answers.current * scale.depth;
  const RailLines lines = rail_lines(w, g, static_cast<Index>(count));
  if (!(lines.cathode_slope.sum() > 0)) throw NoResultError(kNoCurrent);
  const double wires = kWireShare * scale.wire_area / scale.part_area;
  Search search(lines, c, scale, at_first(w, count));
  const auto [voltages, more] = find_rails(search, lines, wires);
  w.drive = drives(w.laws, g, voltages);
  w.current = g * w.drive;
  const double part = lines.part_slope.dot(voltages) + lines.part_rest;
  w.wire_current = wires * part;
  w.total_current =
      lines.cathode_slope.dot(voltages) + lines.cathode_rest + w.wire_current;
  const VectorXd current = more * (lines.slope * voltages + lines.rest);
  w.rectifiers.resize(count);
  for (std::size_t r = 0; r < count; ++r) {
    const auto k = static_cast<Index>(r);
    const Supply& s = c.rectifiers[r].supply;
    AtRectifier& at = w.rectifiers[r];
    at.idle = search.keeps()[r] == Keeps::nothing;
    const bool gives = !at.idle && search.keeps()[r] != Keeps::blocked;
    at.current = gives ? current(k) : 0;
    at.voltage = voltages(k) + s.lead_resistance.value * at.current;
    at.limited_by = word_for(search.keeps()[r], s);
  }
  w.terminal_voltage = w.rectifiers[w.leading].voltage;
  w.limited_by = w.rectifiers[w.leading].limited_by;
}

void check_rectifiers(const WorkingPoint& w, const Case& c) {
  for (std::size_t r = 0; r < w.rectifiers.size(); ++r) {
    const AtRectifier& at = w.rectifiers[r];
    const std::string key = "rectifier." + c.rectifiers[r].name;
    const bool used =
        std::any_of(c.anodes.begin(), c.anodes.end(),
                    [&](const Anode& a) { return a.rectifier == r; });
    if (at.idle && used)
      throw InputError(key,
                       "has no way for its current: its anodes stand in liquid "
                       "apart from every other electrode, or out of it",
                       "an anode opposite the part, or leave it out");
  }
}

}  // namespace thinspot::solver
