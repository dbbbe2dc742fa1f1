#include "solver/certify_turned.hpp"

#include "solver/refinement.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr std::size_t kMostEstimated = 8;
/// Of the tolerance, what waves that are left out may take.
constexpr double kShareOfWaves = 0.1;
/// Waves that are left out to see what the last ones change.
constexpr int kFewer = 2;
/// Of a round, what those angles take that are not estimated, or is kept for a
/// round that was not expected.
constexpr double kFinishing = 0.2;

/// Calls use(a, b) with every figure of two sets of bars.
template <class Use>
void for_each_bar(MeshErrors& a, const MeshErrors& b, Use use) {
  for (std::size_t p = 0; p < a.parts.size(); ++p) {
    use(a.parts[p].least, b.parts[p].least);
    use(a.parts[p].mean, b.parts[p].mean);
    use(a.parts[p].largest, b.parts[p].largest);
    use(a.parts[p].least_judged, b.parts[p].least_judged);
  }
  const auto all = [&](std::vector<double>& x, const std::vector<double>& y) {
    for (std::size_t k = 0; k < x.size(); ++k) use(x[k], y[k]);
  };
  all(a.probes, b.probes);
  all(a.watched, b.watched);
  all(a.electrode_current, b.electrode_current);
  for (std::size_t r = 0; r < a.rectifiers.size(); ++r) {
    use(a.rectifiers[r].voltage, b.rectifiers[r].voltage);
    use(a.rectifiers[r].current, b.rectifiers[r].current);
  }
  use(a.voltage, b.voltage);
  use(a.current, b.current);
  use(a.resistance, b.resistance);
}

/// What the waves beyond those of the response would change, from what the last
/// two of them do: each wave does (reach / free)^2 of the one before it. Twice
/// that, as it is an estimate.
struct LeftOut {
  MeshErrors errors;
  double share = 0;  ///< largest, of a part's mean or of the resistance
};

LeftOut left_out(const Turnable& t, const Certified& solved, const Case& c) {
  const Model& model = solved.model;
  const WorkingPoint& w = solved.outcome.point;
  double closest = 0;
  for (const mesh::TurningDisc& d : t.section.discs)
    closest = std::max(closest, d.reach / d.free);
  const double fall = std::pow(closest, 2 * kFewer);
  const double factor = 2 * fall / (1 - fall);
  const Response fewer = turned_response(t, c, kFewer);
  const WorkingPoint there =
      find_working_point(fewer, c, model.scale, {&w, true});
  LeftOut left;
  MeshErrors& e = left.errors;
  for (std::size_t p = 0; p < model.surfaces.size(); ++p) {
    const std::size_t on = model.surfaces[p].electrode;
    const PartOutcome& o = solved.outcome.parts[p];
    const VectorXd density = current_density(fewer, there, on);
    const double change =
        factor * (density - o.current_density).cwiseAbs().maxCoeff();
    e.parts.push_back({change, change, change, change});
    left.share =
        std::max(left.share, change / std::abs(o.current_density_spread.mean));
  }
  e.probes.assign(solved.outcome.probes.size(), e.parts.front().least);
  for (const Watched& window : solved.outcome.watched)
    e.watched.push_back(e.parts[window.part].least);
  const VectorXd change = factor * (there.current - w.current).cwiseAbs();
  e.electrode_current.assign(change.begin(), change.end());
  const auto of = [&](double a, double b) { return factor * std::abs(a - b); };
  for (std::size_t r = 0; r < w.rectifiers.size(); ++r)
    e.rectifiers.push_back(
        {of(there.rectifiers[r].voltage, w.rectifiers[r].voltage),
         of(there.rectifiers[r].current, w.rectifiers[r].current)});
  e.voltage = of(there.terminal_voltage, w.terminal_voltage);
  e.current = of(there.total_current, w.total_current);
  const double resistance = w.terminal_voltage / w.total_current;
  e.resistance = of(there.terminal_voltage / there.total_current, resistance);
  left.share = std::max(left.share, e.resistance / std::abs(resistance));
  return left;
}

Certified solved_turn(const Turnable& t, const Case& c,
                      const std::vector<Watched>& watched) {
  Certified result{turned_model(t, c), {}, {}, false, 0};
  result.outcome = evaluate(result.model, c);
  result.outcome.watched = watched;
  result.model.mesh_seconds = t.mesh_seconds;
  result.model.response_seconds = t.response_seconds;
  return result;
}

class Turns {
 public:
  Turns(Turnable turnable, const std::vector<Case>& cases,
        const std::vector<std::vector<Watched>>& watched,
        const Progress& progress)
      : progress_(progress),
        pieces_(progress),
        turnable_(std::move(turnable)),
        cases_(cases),
        watched_(watched),
        stride_((cases.size() + kMostEstimated - 1) / kMostEstimated),
        last_bar_(cases.size()) {}

  CertifiedTurns certify() {
    for (;;) {
      estimate_all();
      if (share_ > kShareOfWaves * cases_.front().accuracy.tolerance &&
          more_waves())
        continue;
      if (triangles_.empty() || rounds_ == kMostRounds ||
          turnable_.mesh.nodes.cols() > kMostNodes)
        break;
      std::optional<Turnable> finer = refined(turnable_, triangles_);
      if (!finer) return {std::move(turnable_), {}};
      turnable_ = std::move(*finer);
      ++rounds_;
    }
    return finished();
  }

 private:
  const std::vector<Watched>& watched(std::size_t k) const {
    static const std::vector<Watched> none;
    return watched_.empty() ? none : watched_[k];
  }

  /// Where one of the cases begins in a round.
  void say(const Progress& round, std::size_t k) const {
    const Progress here = round.piece(k, cases_.size());
    (rounds_ > 0 ? here.named({"refining"}) : here)
        .counted("angle", k + 1, cases_.size())
        .at(0);
  }

  void estimate_all() {
    solved_.clear();
    const Progress round = pieces_.next(1, std::max(to_come_, kFinishing));
    to_come_ = 0;
    std::vector<bool> marked(
        static_cast<std::size_t>(turnable_.mesh.triangles.cols()), false);
    share_ = 0;
    for (std::size_t k = 0; k < cases_.size(); k += stride_) {
      const Case& c = cases_[k];
      say(round, k);
      Certified one = solved_turn(turnable_, c, watched(k));
      Estimate e = estimate_errors(one.model, c, one.outcome);
      e.allowed *= 1 - kShareOfWaves;
      one.errors = e.errors;
      one.rounds = rounds_;
      const LeftOut left = left_out(turnable_, one, c);
      for_each_bar(one.errors, left.errors,
                   [](double& a, double b) { a += b; });
      one.within =
          within(e) && left.share <= kShareOfWaves * c.accuracy.tolerance;
      share_ = std::max(share_, left.share);
      if (!within(e))
        for (int t : triangles_to_refine(one.model, e, last_bar_[k]))
          marked[static_cast<std::size_t>(t)] = true;
      last_bar_[k] = e.bar;
      to_come_ = std::max(to_come_, rounds_to_come(e) - 1);
      solved_.push_back(std::move(one));
    }
    triangles_.clear();
    for (std::size_t t = 0; t < marked.size(); ++t)
      if (marked[t]) triangles_.push_back(static_cast<int>(t));
  }

  bool more_waves() {
    auto more =
        build_turnable(cases_.front(), turnable_.response->waves() * 3 / 2 + 1);
    if (!more) return false;
    turnable_ = std::move(*more);
    std::fill(last_bar_.begin(), last_bar_.end(), VectorXd());
    rounds_ = 0;
    return true;
  }

  CertifiedTurns finished() {
    CertifiedTurns all{turnable_, {}};
    const Progress rest = pieces_.next(kFinishing, 0);
    for (std::size_t k = 0; k < cases_.size(); ++k) {
      const std::size_t before = k / stride_;
      if (k % stride_ == 0) {
        all.each.push_back(std::make_shared<const Certified>(solved_[before]));
        continue;
      }
      say(rest, k);
      Certified one = solved_turn(turnable_, cases_[k], watched(k));
      const Certified& a = solved_[before];
      const Certified& b = solved_[(before + 1) % solved_.size()];
      one.errors = a.errors;
      for_each_bar(one.errors, b.errors,
                   [](double& x, double y) { x = std::max(x, y); });
      one.within = a.within && b.within;
      one.rounds = rounds_;
      all.each.push_back(std::make_shared<const Certified>(std::move(one)));
    }
    progress_.at(1);
    return all;
  }

  Progress progress_;
  Unfolding pieces_;
  double to_come_ = 1;  // rounds after the one at hand
  Turnable turnable_;
  const std::vector<Case>& cases_;
  const std::vector<std::vector<Watched>>& watched_;
  std::size_t stride_;
  std::vector<VectorXd> last_bar_;
  std::vector<Certified> solved_;  // of every stride-th case
  std::vector<int> triangles_;     // to be refined
  double share_ = 0;
  int rounds_ = 0;
};

}  // namespace

CertifiedTurns certify_turned(Turnable turnable, const std::vector<Case>& cases,
                              const std::vector<std::vector<Watched>>& watched,
                              const Progress& progress) {
  return Turns(std::move(turnable), cases, watched, progress).certify();
}

}  // namespace thinspot::solver
