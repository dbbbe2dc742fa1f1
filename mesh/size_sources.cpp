#include "mesh/size_sources.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Asking so many costs about what parting them does.
constexpr int kTogether = 4;

/// More levels than halving as many sources as memory holds takes.
constexpr std::size_t kDeepest = 64;

}  // namespace

void SizeSources::add(const Curve& curve, double size, double growth) {
  sources_.push_back({curve, bounding_box({{{curve}}}), size, growth});
}

void SizeSources::sort() {
  nodes_.clear();
  order_.clear();
  // What is not a number has no place among others.
  for (const SizeSource& s : sources_)
    if (!s.box.centre().allFinite()) return;
  order_.resize(sources_.size());
  std::iota(order_.begin(), order_.end(), 0);
  if (!order_.empty()) sort(0, static_cast<int>(order_.size()));
}

int SizeSources::sort(int first, int count) {
  const auto begin = order_.begin() + first, end = begin + count;
  const auto source = [this](int k) -> const SizeSource& {
    return sources_[static_cast<std::size_t>(k)];
  };
  const SizeSource& one = source(*begin);
  Node node{one.box, one.size, one.growth};
  Box centres{one.box.centre(), one.box.centre()};
  for (auto k = begin; k != end; ++k) {
    const SizeSource& s = source(*k);
    node.box.low = node.box.low.cwiseMin(s.box.low);
    node.box.high = node.box.high.cwiseMax(s.box.high);
    node.size = std::min(node.size, s.size);
    node.growth = std::min(node.growth, s.growth);
    centres.low = centres.low.cwiseMin(s.box.centre());
    centres.high = centres.high.cwiseMax(s.box.centre());
  }
  node.first = first;
  const auto here = nodes_.size();
  nodes_.push_back(node);
  if (count <= kTogether) {
    nodes_[here].count = count;
    return static_cast<int>(here);
  }
  const int axis = centres.size().x() >= centres.size().y() ? 0 : 1;
  const int half = count / 2;
  std::nth_element(begin, begin + half, end, [&](int a, int b) {
    return source(a).box.centre()[axis] < source(b).box.centre()[axis];
  });
  sort(first, half);
  nodes_[here].second = sort(first + half, count - half);
  return static_cast<int>(here);
}

double SizeSources::least_at(const Point& x, double most) const {
  double size = most;
  const auto ask = [&](std::size_t k) {
    const SizeSource& s = sources_[k];
    // The box is nearer than the curve: cheap to rule a source out by it.
    if (s.size + s.growth * distance(s.box, x) >= size) return;
    size = std::min(size, s.size + s.growth * nearest(s.curve, x).distance);
  };
  struct Open {
    int node = 0;
    double bound = 0;
  } open[kDeepest];
  std::size_t count = 0;
  if (!nodes_.empty()) open[count++] = {0, nodes_.front().bound(x)};
  while (count > 0) {
    const Open next = open[--count];
    if (next.bound >= size) continue;
    const Node& node = nodes_[static_cast<std::size_t>(next.node)];
    if (node.count > 0) {
      for (int k = node.first; k < node.first + node.count; ++k)
        ask(static_cast<std::size_t>(order_[static_cast<std::size_t>(k)]));
      continue;
    }
    Open near{next.node + 1}, far{node.second};
    near.bound = nodes_[static_cast<std::size_t>(near.node)].bound(x);
    far.bound = nodes_[static_cast<std::size_t>(far.node)].bound(x);
    // The one that promises less is asked first: it rules the other out.
    if (far.bound < near.bound) std::swap(near, far);
    open[count++] = far;
    open[count++] = near;
  }
  for (std::size_t k = order_.size(); k < sources_.size(); ++k) ask(k);
  return size;
}

}  // namespace thinspot::mesh
