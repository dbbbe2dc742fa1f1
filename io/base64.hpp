#pragma once

#include <Eigen/Core>

#include <string>

namespace thinspot::io {

/// Numbers as little-endian 4-byte floats in base 64 (RFC 4648), row by row.
std::string packed(const Eigen::MatrixXd& values);

/// The lower triangle of a symmetric matrix, row by row, likewise.
std::string packed_symmetric(const Eigen::MatrixXd& values);

}  // namespace thinspot::io
