#include "io/copies.hpp"

#include <algorithm>

namespace thinspot::io {

using solver::PartResult;
using solver::Result;

namespace {

template <class Value>
double sum(const Result& result, Value value) {
  double all = 0;
  for (const PartResult& part : result.parts) all += value(part);
  return all;
}

template <class Value>
double area_mean(const Result& result, Value value) {
  return sum(result, [&](const PartResult& p) { return p.area * value(p); }) /
         whole_area(result);
}

template <class Less>
std::size_t index_of_least(const Result& result, Less less) {
  const auto found =
      std::min_element(result.parts.begin(), result.parts.end(), less);
  return static_cast<std::size_t>(found - result.parts.begin());
}

}  // namespace

std::size_t thinnest_spot_on(const Result& result) {
  return index_of_least(result, [](const PartResult& a, const PartResult& b) {
    return a.thickness.value.min < b.thickness.value.min;
  });
}

std::size_t heaviest_spot_on(const Result& result) {
  return index_of_least(result, [](const PartResult& a, const PartResult& b) {
    return a.thickness.value.max > b.thickness.value.max;
  });
}

Banded mean_thickness(const Result& result) {
  using Part = const PartResult&;
  return {
      area_mean(result, [](Part p) { return p.thickness.value.mean; }),
      {area_mean(result, [](Part p) { return p.thickness.mean_band.low; }),
       area_mean(result, [](Part p) { return p.thickness.mean_band.high; })}};
}

double whole_area(const Result& result) {
  return sum(result, [](const PartResult& p) { return p.area; });
}

double whole_current(const Result& result) {
  return sum(result, [](const PartResult& p) { return p.current; });
}

double whole_mass(const Result& result) {
  return sum(result, [](const PartResult& p) { return p.mass; });
}

}  // namespace thinspot::io
