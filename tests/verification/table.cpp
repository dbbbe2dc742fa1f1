#include "table.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

namespace thinspot::tests {

namespace {

std::vector<Row>& kept() {
  static std::vector<Row> rows;
  return rows;
}

}  // namespace

void record(const Row& row) {
  kept().push_back(row);
  CAPTURE(row.name, row.quantity, row.exact, row.computed, row.bar);
  if (row.judged) CHECK(std::abs(row.computed - row.exact) <= row.bar);
  if (row.order.kind == Order::Kind::measured)
    CHECK(row.order.measured >= row.order.expected - 0.5);
}

std::vector<Row> recorded() {
  std::vector<Row> rows = kept();
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return a.name < b.name; });
  return rows;
}

}  // namespace thinspot::tests
