#pragma once

#include <string>
#include <vector>

namespace thinspot::tests {

/// How fast an error falls with the size of the triangles.
struct Order {
  enum class Kind {
    none,      ///< nothing to refine, or no exact value
    exact,     ///< the answer lies in the space of P2: rounding is all
    measured,  ///< log2 of the last ratio, each triangle made into four
  };
  Kind kind = Kind::none;
  double measured = 0, expected = 0;
};

/// One figure that is known from elsewhere.
struct Row {
  std::string name;      ///< of the case; pages are sorted by it
  std::string source;    ///< of the exact value
  std::string quantity;  ///< with its unit
  double exact = 0, computed = 0;
  double bar = 0;  ///< how far off the computed one may be, in its unit
  Order order = {};
  /// False where the source is no exact value, and how far it is off is what
  /// the row tells.
  bool judged = true;
};

/// Checks a row, |computed - exact| <= bar and the order, and keeps it for the
/// page. Half an order is what may be missing: it tells an order from the next
/// one below, and meshes that are not yet fine miss less. Orders may be better
/// than expected by symmetry, or where the leading term is small.
void record(const Row& row);

/// All rows recorded so far, in the order of their cases' names.
std::vector<Row> recorded();

}  // namespace thinspot::tests
