#include "viz/palette.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace thinspot::viz {

namespace {

using Triple = std::array<double, 3>;

constexpr std::array<Rgb, 6> stops = {{{0.969, 0.973, 0.918},
                                       {0.824, 0.898, 0.792},
                                       {0.541, 0.780, 0.722},
                                       {0.251, 0.565, 0.639},
                                       {0.149, 0.337, 0.533},
                                       {0.125, 0.114, 0.318}}};

double linear(double c) {
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double screen(double c) {
  c = std::clamp(c, 0.0, 1.0);
  return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055;
}

Triple linear(const Rgb& c) {
  return {linear(c.red), linear(c.green), linear(c.blue)};
}

}  // namespace

std::string hex(const Rgb& c) {
  const auto byte = [](double v) {
    return static_cast<int>(std::lround(255 * std::clamp(v, 0.0, 1.0)));
  };
  return fmt::format("#{:02x}{:02x}{:02x}", byte(c.red), byte(c.green),
                     byte(c.blue));
}

Rgb ramp(double share) {
  const double at = std::clamp(share, 0.0, 1.0) * (stops.size() - 1);
  const auto k = std::min(static_cast<std::size_t>(at), stops.size() - 2);
  const double t = at - static_cast<double>(k);
  const Rgb& a = stops[k];
  const Rgb& b = stops[k + 1];
  return {a.red + t * (b.red - a.red), a.green + t * (b.green - a.green),
          a.blue + t * (b.blue - a.blue)};
}

std::string in_grey(std::string svg) {
  // Texts hold no bare quotes: such a word in quotes is an attribute.
  constexpr std::size_t length = 9;  // "#1b2430" with its quotes
  for (std::size_t at = svg.find("\"#"); at != std::string::npos;
       at = svg.find("\"#", at + 1)) {
    const std::string digits = svg.substr(at + 2, 6);
    if (at + length > svg.size() || svg[at + length - 1] != '"' ||
        digits.find_first_not_of("0123456789abcdef") != std::string::npos)
      continue;
    const auto part = [&](std::size_t k) {
      return std::stoi(digits.substr(k, 2), nullptr, 16) / 255.0;
    };
    const double grey = screen(luminance({part(0), part(2), part(4)}));
    svg.replace(at + 1, 7, hex({grey, grey, grey}));
  }
  return svg;
}

double luminance(const Rgb& colour) {
  const Triple c = linear(colour);
  return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}

Rgb as_deuteranope_sees(const Rgb& colour) {
  // To the responses of the three cones, the middle one replaced by what the
  // other two let it guess, and back: folded into one matrix on linear RGB.
  const Triple c = linear(colour);
  const double yellow = 0.29275 * c[0] + 0.70725 * c[1];
  const double blue = -0.02234 * c[0] + 0.02234 * c[1] + c[2];
  return {screen(yellow), screen(yellow), screen(blue)};
}

Triple lab(const Rgb& colour) {
  const Triple c = linear(colour);
  const auto f = [](double t) {
    return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  };
  const double x = f((0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505);
  const double y = f(0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]);
  const double z = f((0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.089);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

}  // namespace thinspot::viz
