#include "solver/efficiency.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Table = std::vector<EfficiencyAt>;

/// Nearer to a point of a table than this is on it.
constexpr double kBend = 1e-9;

/// The first point of a table that lies beyond a density.
Table::const_iterator beyond(const Table& table, double density) {
  return std::upper_bound(
      table.begin(), table.end(), density,
      [](double d, const EfficiencyAt& p) { return d < p.density; });
}

/// Of a straight piece: change of efficiency by density.
double rise(const EfficiencyAt& a, const EfficiencyAt& b) {
  return (b.efficiency - a.efficiency) / (b.density - a.density);
}

double read(const Table& table, double density) {
  const auto next = beyond(table, density);
  if (next == table.begin()) return table.front().efficiency;
  if (next == table.end()) return table.back().efficiency;
  const EfficiencyAt& before = *(next - 1);
  return before.efficiency + rise(before, *next) * (density - before.density);
}

}  // namespace

double efficiency_at(const Solution& solution, double density) {
  const Table& table = solution.efficiency_table;
  const double share = table.empty() ? 1 : read(table, std::abs(density));
  return std::min(1.0, share * solution.efficiency.value);
}

double depositing(const Solution& solution, double density) {
  const Table& table = solution.efficiency_table;
  return table.empty() ? density : density * read(table, std::abs(density));
}

Eigen::VectorXd depositing(const Solution& solution,
                           const Eigen::VectorXd& density) {
  if (solution.efficiency_table.empty()) return density;
  return density.unaryExpr([&](double i) { return depositing(solution, i); });
}

std::optional<double> depositing_slope(const Solution& solution,
                                       double density) {
  const Table& table = solution.efficiency_table;
  if (table.empty()) return 1;
  const double i = std::abs(density);
  for (const EfficiencyAt& p : table)
    if (table.size() > 1 && std::abs(i - p.density) <= kBend * p.density)
      return std::nullopt;
  const auto next = beyond(table, i);
  const bool inside = next != table.begin() && next != table.end();
  return read(table, i) + (inside ? i * rise(*(next - 1), *next) : 0);
}

double steepest(const Solution& solution, double low, double high) {
  const Table& table = solution.efficiency_table;
  if (table.empty()) return 1;
  // d(i e)/di = e + i e' is straight on each piece: largest at an end of it.
  const double most = std::max(std::abs(low), std::abs(high));
  const double least =
      low * high <= 0 ? 0 : std::min(std::abs(low), std::abs(high));
  double largest = 0;
  if (least <= table.front().density) largest = table.front().efficiency;
  if (most >= table.back().density)
    largest = std::max(largest, table.back().efficiency);
  for (std::size_t k = 0; k + 1 < table.size(); ++k) {
    const double from = std::max(least, table[k].density);
    const double to = std::min(most, table[k + 1].density);
    if (from > to) continue;
    const double slope = rise(table[k], table[k + 1]);
    for (double i : {from, to})
      largest = std::max(largest, std::abs(read(table, i) + i * slope));
  }
  return largest;
}

void refer_efficiency_to(Solution& solution, double density) {
  Table& table = solution.efficiency_table;
  if (table.empty()) return;
  const double there = read(table, std::abs(density));
  for (EfficiencyAt& p : table) p.efficiency /= there;
  solution.efficiency.value = there;
}

bool deposits_more_with_more(const Table& table) {
  for (std::size_t k = 0; k + 1 < table.size(); ++k) {
    const double slope = rise(table[k], table[k + 1]);
    for (std::size_t j : {k, k + 1})
      if (table[j].efficiency + table[j].density * slope <= 0) return false;
  }
  return true;
}

}  // namespace thinspot::solver
