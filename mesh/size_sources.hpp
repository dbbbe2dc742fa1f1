#pragma once

#include "mesh/curve.hpp"

#include <vector>

namespace thinspot::mesh {

/// Where a size field asks for small edges: `size` on the curve, more by
/// `growth` times the distance from it.
struct SizeSource {
  Curve curve;  ///< from == to for a point
  Box box;
  double size = 0, growth = 0;
};

/// Many of them, in boxes of boxes, so that a point asks few.
class SizeSources {
 public:
  void add(const Curve& curve, double size, double growth);
  /// Puts all that were added in their boxes; those added later are each asked.
  void sort();
  /// The least of `most` and of what each source asks for at a point [m].
  double least_at(const Point& x, double most) const;
  const std::vector<SizeSource>& all() const { return sources_; }

 private:
  struct Node {
    Box box;
    double size = 0, growth = 0;  ///< least of those in it
    int first = 0, count = 0;     ///< of order_; what is halved has no count
    int second = 0;               ///< of its halves; the first comes next
    double bound(const Point& x) const {
      return size + growth * distance(box, x);
    }
  };
  int sort(int first, int count);

  std::vector<SizeSource> sources_;
  std::vector<Node> nodes_;
  std::vector<int> order_;  ///< sources as nodes_ have them
};

}  // namespace thinspot::mesh
