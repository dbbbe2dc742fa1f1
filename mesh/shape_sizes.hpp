#pragma once

#include "mesh/shape.hpp"

#include <string>
#include <string_view>

// What the shapes ask of the sizes that they are given.
namespace thinspot::mesh {

/// @returns the size [m].
/// @throws InputError where it is missing, not finite, 0 or less.
double length_of(const Sizes& sizes, std::string_view key);

/// @returns the size [m], 0 where it was left out.
/// @throws InputError where it is negative or not finite.
double radius_of(const Sizes& sizes, std::string_view key);

/// A size may be as large as `most`, rounding of its last digits apart.
/// @param why  ends the sentence "12 mm does not fit: …"
/// @throws InputError where it is larger.
void check_fits(std::string_view key, double size, double most,
                const std::string& why);

/// A size must be smaller than `limit`.
/// @param why  ends the sentence "12 mm …"
/// @param instead  another way out, "" where there is none
/// @throws InputError where it is not.
void check_below(std::string_view key, double size, double limit,
                 const std::string& why, const std::string& instead = "");

/// Roundings on both sides of an L corner of a sheet bent or cut at a right
/// angle: the outer one must not reach the inner one.
/// @throws InputError with key "outside_radius".
void check_corner_holds(double thickness, double inside, double outside);

}  // namespace thinspot::mesh
