#pragma once

#include <Eigen/Core>

#include <cstdint>
#include <vector>

namespace thinspot::solver {

/// Share of a standard normal distribution below a value.
double normal_share(double value);

/// The value below which a share of it lies; 0 < share < 1.
double normal_quantile(double share);

/// Numbers evenly spread between 0 and 1, one row a draw, one column an input,
/// by a Latin hypercube: of n draws exactly one of each input lies in each nth
/// of its range, so that each input by itself is covered as evenly as n draws
/// can. The same on every machine.
/// Source: McKay, Beckman and Conover, Technometrics 21 (1979) 239 (from
/// memory).
Eigen::MatrixXd latin_hypercube(Eigen::Index draws, Eigen::Index inputs,
                                std::uint64_t seed);

/// Independent standard normal numbers by a Latin hypercube.
Eigen::MatrixXd drawn_normals(Eigen::Index draws, Eigen::Index inputs,
                              std::uint64_t seed);

/// The value below which a share of them lies, straight between the draws.
/// @param values  at least one
double quantile(std::vector<double> values, double share);

/// Chance that what is known to value + up - down (95 %) is at least `wanted`:
/// half a normal distribution a side.
double chance_above(double wanted, double value, double down, double up);

}  // namespace thinspot::solver
