#include "viz/binned.hpp"

#include "viz/sweep_words.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace thinspot::viz {

namespace {

constexpr std::size_t kMostBins = 20, kPerBin = 5;

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half]
                                : 0.5 * (values[half - 1] + values[half]);
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) /
         static_cast<double>(values.size());
}

double squares_about(const std::vector<double>& values, double centre) {
  double sum = 0;
  for (const double v : values) sum += (v - centre) * (v - centre);
  return sum;
}

}  // namespace

double Bin::median() const { return median_of(values); }

double Bin::mean() const { return mean_of(values); }

std::vector<Bin> binned(const std::vector<double>& at,
                        const std::vector<double>& values) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < std::min(at.size(), values.size()); ++k)
    if (is_result(values[k]) && is_result(at[k])) order.push_back(k);
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return at[a] < at[b]; });
  std::size_t distinct = order.empty() ? 0 : 1;
  for (std::size_t k = 1; k < order.size(); ++k)
    distinct += at[order[k]] > at[order[k - 1]];
  // A few settings have a bin each, however few points they have.
  const std::size_t count =
      distinct <= kMostBins && 2 * distinct <= order.size()
          ? order.size()
          : std::clamp<std::size_t>(order.size() / kPerBin, 1, kMostBins);
  std::vector<Bin> bins;
  std::vector<double> keys;
  std::size_t filled = 0;  // the part of all points that lies in full bins
  for (std::size_t k = 0; k < order.size(); ++k) {
    const bool same = k > 0 && at[order[k]] == at[order[k - 1]];
    const std::size_t share = k * count / order.size();
    if (bins.empty() || (!same && share > filled)) {
      if (!bins.empty()) bins.back().middle = median_of(keys);
      keys.clear();
      bins.emplace_back();
      filled = share;
    }
    bins.back().values.push_back(values[order[k]]);
    keys.push_back(at[order[k]]);
  }
  if (!bins.empty()) bins.back().middle = median_of(keys);
  return bins;
}

std::optional<double> explained_share(const std::vector<Bin>& bins) {
  std::vector<double> all;
  for (const Bin& bin : bins)
    all.insert(all.end(), bin.values.begin(), bin.values.end());
  const auto n = static_cast<double>(all.size());
  const auto k = static_cast<double>(bins.size());
  if (bins.size() < 2 || all.size() <= bins.size()) return {};
  const double centre = mean_of(all);
  const double total = squares_about(all, centre);
  double within = 0;
  for (const Bin& bin : bins) within += squares_about(bin.values, bin.mean());
  // What rounding alone makes of equal values is no variance.
  if (total <= n * std::pow(1e-9 * centre, 2)) return {};
  return std::clamp(1 - within / (n - k) / (total / (n - 1)), 0.0, 1.0);
}

}  // namespace thinspot::viz
