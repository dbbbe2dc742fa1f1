#pragma once

#include <cstdint>
#include <string>

namespace thinspot::tests {

/// A case file drawn by lot, the same for the same seed: every shape, side and
/// plan views, axisymmetric sections, all that a tank may hold, every law and
/// kind of supply, solutions of the library and of the file's own, steps that
/// flip, turn, warm up; sizes from 10 um to metres, conductivity from 1e-6 to
/// 1e3 S/m, slopes from 0 to 1e6 ohm cm2. Well formed; whether the solids have
/// room, or current can flow, is left to chance.
std::string random_case_text(std::uint64_t seed);

}  // namespace thinspot::tests
