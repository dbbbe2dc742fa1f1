#include "io/base64.hpp"

#include <bit>
#include <cstdint>
#include <string_view>
#include <vector>

namespace thinspot::io {

namespace {

constexpr std::string_view kLetters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Collects bytes, three of which make four letters.
class Packer {
 public:
  void add(double value) {
    const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(value));
    for (unsigned shift : {0u, 8u, 16u, 24u})
      bytes_.push_back(static_cast<std::uint8_t>(bits >> shift));
  }

  std::string take() const {
    std::string text;
    text.reserve(4 * (bytes_.size() / 3 + 1));
    for (std::size_t k = 0; k < bytes_.size(); k += 3) {
      const std::size_t left = bytes_.size() - k;
      const auto byte = [&](std::size_t n) {
        return n < left ? std::uint32_t{bytes_[k + n]} : 0u;
      };
      const std::uint32_t three = byte(0) << 16 | byte(1) << 8 | byte(2);
      for (unsigned n = 0; n < 4; ++n)
        text += n <= left ? kLetters[three >> (18 - 6 * n) & 63] : '=';
    }
    return text;
  }

 private:
  std::vector<std::uint8_t> bytes_;
};

}  // namespace

std::string packed(const Eigen::MatrixXd& values) {
  Packer packer;
  for (Eigen::Index r = 0; r < values.rows(); ++r)
    for (Eigen::Index c = 0; c < values.cols(); ++c) packer.add(values(r, c));
  return packer.take();
}

std::string packed_symmetric(const Eigen::MatrixXd& values) {
  Packer packer;
  for (Eigen::Index r = 0; r < values.rows(); ++r)
    for (Eigen::Index c = 0; c <= r; ++c) packer.add(values(r, c));
  return packer.take();
}

}  // namespace thinspot::io
