#include "io/sweep_draw.hpp"

#include <boost/random/sobol.hpp>

#include <random>
#include <vector>

namespace thinspot::io {

Eigen::MatrixXd sobol_shares(Eigen::Index points, Eigen::Index axes,
                             std::uint64_t seed) {
  // Begins behind the first point, which is all zeros.
  boost::random::sobol sequence(static_cast<std::size_t>(axes));
  std::mt19937_64 engine(seed);
  std::vector<std::uint64_t> flipped;
  for (Eigen::Index j = 0; j < axes; ++j) flipped.push_back(engine());
  Eigen::MatrixXd shares(points, axes);
  for (Eigen::Index k = 0; k < points; ++k)
    for (Eigen::Index j = 0; j < axes; ++j) {
      const std::uint64_t own = k == 0 ? 0 : sequence();
      const std::uint64_t bits = own ^ flipped[static_cast<std::size_t>(j)];
      shares(k, j) = (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53;
    }
  return shares;
}

}  // namespace thinspot::io
