#pragma once

namespace thinspot::solver {

struct Interval {
  double low = 0;
  double high = 0;
};

/// Digits that a value with this 95 % band is worth: two where the band is
/// wider than a tenth of the value, else three.
int digits_worth(double value, const Interval& band);

/// Least, mean and largest of a quantity over a surface.
struct Spread {
  double min = 0;
  double mean = 0;
  double max = 0;
};

/// The same with the 95 % bands of each; low == high where nothing is
/// uncertain.
struct BandedSpread {
  Spread value;
  Interval min_band, mean_band, max_band;
  Spread mesh_error =
      {};  ///< how far meshing may have put each off, either way
};

}  // namespace thinspot::solver
