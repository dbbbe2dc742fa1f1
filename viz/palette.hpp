#pragma once

#include <array>
#include <string>

namespace thinspot::viz {

struct Rgb {
  double red = 0, green = 0, blue = 0;  ///< 0..1, sRGB as a screen takes it
};

/// "#rrggbb".
std::string hex(const Rgb& colour);

/// The ramp for current and thickness, 0 little .. 1 much: from a pale
/// straw over sea green to a deep ink blue. Its lightness falls all the way,
/// so it reads when printed grey and for colour-blind eyes.
Rgb ramp(double share);

/// An SVG text with every colour of six digits in its attributes replaced by a
/// grey as dark, for sheets that go through any printer.
std::string in_grey(std::string svg);

/// Relative luminance, 0 black .. 1 white.
/// Source: W3C, WCAG 2.1, "relative luminance" (sRGB, IEC 61966-2-1).
double luminance(const Rgb& colour);

/// As an eye without green cones sees it.
/// Source: Vienot, Brettel, Mollon 1999, Color Res. Appl. 24(4) 243-252.
Rgb as_deuteranope_sees(const Rgb& colour);

/// CIE L*a*b* (D65) of a colour, for distances between colours.
std::array<double, 3> lab(const Rgb& colour);

namespace colour {
inline constexpr const char* ink = "#1b2430";       ///< text
inline constexpr const char* pale_ink = "#566171";  ///< lesser text, axes
inline constexpr const char* grid = "#dfe4ea";
inline constexpr const char* wall = "#58626e";
inline constexpr const char* mirrored_liquid = "#dfe7e6";
inline constexpr const char* potential = "#4c6a86";
inline constexpr const char* current = "#20303f";
inline constexpr const char* coating = "#d9822b";
inline constexpr const char* coating_edge = "#7a4308";
inline constexpr const char* not_judged = "#b3b9c1";
inline constexpr const char* other_copy = "#a99478";
inline constexpr const char* other_result = "#2f5f9e";
inline constexpr const char* target = "#0d5f4f";
inline constexpr const char* lacquer = "#7d2e4e";
inline constexpr const char* burnt = "#e03616";
inline constexpr const char* thin = "#b1123b";
inline constexpr const char* heavy = "#27408b";
}  // namespace colour

}  // namespace thinspot::viz
