// SPDX-License-Identifier: GPL-3.0-or-later
// The inks of the sheet.
#pragma once

namespace sightfall::draw {

/// sRGB, each part 0 to 1.
struct Colour {
  double red = 0, green = 0, blue = 0, opacity = 1;
};

constexpr Colour from_hex(unsigned rgb) {
  return {((rgb >> 16) & 0xFF) / 255.0, ((rgb >> 8) & 0xFF) / 255.0, (rgb & 0xFF) / 255.0, 1};
}
constexpr Colour with_opacity(Colour colour, double opacity) {
  return {colour.red, colour.green, colour.blue, opacity};
}
/// `share` of b in a.
constexpr Colour mixed(Colour a, Colour b, double share) {
  return {a.red + share * (b.red - a.red), a.green + share * (b.green - a.green), a.blue + share * (b.blue - a.blue),
          a.opacity + share * (b.opacity - a.opacity)};
}

inline constexpr Colour kPaper = from_hex(0xF8F5EE);
inline constexpr Colour kInk = from_hex(0x22262B);
inline constexpr Colour kAccent = from_hex(0xB5532A);
inline constexpr Colour kSoftInk = mixed(kInk, kPaper, 0.35);
inline constexpr Colour kFaintInk = mixed(kInk, kPaper, 0.70);

}  // namespace sightfall::draw
