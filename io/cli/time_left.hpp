#pragma once

#include <optional>

namespace thinspot::io::cli {

/// How long work will still take, from how much of it took how long.
class TimeLeft {
 public:
  /// What there is to go, if all goes on as it did. A change of pace comes in
  /// bit by bit.
  /// @param share    done, 0 to 1, not less than before
  /// @param seconds  since the beginning, not less than before
  /// @returns seconds; none as long as neither 5 % is done nor 1 s has passed
  std::optional<double> after(double share, double seconds);

 private:
  std::optional<double> end_;  // from the beginning [s]
  double last_ = 0;
};

}  // namespace thinspot::io::cli
