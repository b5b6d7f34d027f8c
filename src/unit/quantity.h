// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities with dimensions; a wrong unit does not compile.
//   Stored in SI base units as double. Base dimensions beyond the SI ones are the things this program counts: pixels,
//   electrons, bits. An angle is a dimension too, so that a bearing cannot be added to a ratio.
//   Construct with `12.0 * mm`, read with `q.in(px / m)`.
//   Source   BIPM, The International System of Units, 9th ed. (2019), for the SI part
//   Checked  quantity_test.cpp; tests/nocompile; the member initialisers of Dim matter (see quantity_test.cpp)
#pragma once
#include <compare>

namespace sightfall {

struct Dim {
  int m = 0, s = 0, rad = 0, cd = 0, W = 0, px = 0, e = 0, bit = 0, kg = 0;
  auto operator<=>(const Dim&) const = default;
};
constexpr Dim operator+(Dim a, Dim b) {
  return {a.m + b.m,   a.s + b.s, a.rad + b.rad, a.cd + b.cd, a.W + b.W,
          a.px + b.px, a.e + b.e, a.bit + b.bit, a.kg + b.kg};
}
constexpr Dim operator-(Dim a, Dim b) {
  return {a.m - b.m,   a.s - b.s, a.rad - b.rad, a.cd - b.cd, a.W - b.W,
          a.px - b.px, a.e - b.e, a.bit - b.bit, a.kg - b.kg};
}

template <Dim D>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double si) : si_{si} {}
  constexpr double si() const { return si_; }
  constexpr double in(Quantity unit) const { return si_ / unit.si_; }
  auto operator<=>(const Quantity&) const = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.si_ + b.si_}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.si_ - b.si_}; }
  friend constexpr Quantity operator-(Quantity a) { return Quantity{-a.si_}; }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity{k * a.si_}; }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity{k * a.si_}; }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity{a.si_ / k}; }

 private:
  double si_ = 0;
};

constexpr Dim kNoDimension{};
template <Dim A, Dim B>
constexpr auto operator*(Quantity<A> a, Quantity<B> b) {
  if constexpr (A + B == kNoDimension)
    return a.si() * b.si();
  else
    return Quantity<A + B>{a.si() * b.si()};
}
template <Dim A, Dim B>
constexpr auto operator/(Quantity<A> a, Quantity<B> b) {
  if constexpr (A - B == kNoDimension)
    return a.si() / b.si();
  else
    return Quantity<A - B>{a.si() / b.si()};
}

using Length = Quantity<Dim{.m = 1}>;
using Area = Quantity<Dim{.m = 2}>;
using Time = Quantity<Dim{.s = 1}>;
using Frequency = Quantity<Dim{.s = -1}>;
using Angle = Quantity<Dim{.rad = 1}>;
using Speed = Quantity<Dim{.m = 1, .s = -1}>;
using Pixels = Quantity<Dim{.px = 1}>;
using PixelDensity = Quantity<Dim{.m = -1, .px = 1}>;
using PixelPitch = Quantity<Dim{.m = 1, .px = -1}>;
using Power = Quantity<Dim{.W = 1}>;
using Intensity = Quantity<Dim{.cd = 1}>;
using LuminousFlux = Quantity<Dim{.rad = 2, .cd = 1}>;
using Illuminance = Quantity<Dim{.m = -2, .rad = 2, .cd = 1}>;
using Luminance = Quantity<Dim{.m = -2, .cd = 1}>;
using Irradiance = Quantity<Dim{.m = -2, .W = 1}>;
using RadiantIntensity = Quantity<Dim{.rad = -2, .W = 1}>;
using Mass = Quantity<Dim{.kg = 1}>;
using DataSize = Quantity<Dim{.bit = 1}>;
using DataRate = Quantity<Dim{.s = -1, .bit = 1}>;

/// Units to multiply with; bring them in with `using namespace sightfall::units` inside a .cpp.
namespace units {
inline constexpr Length m{1}, mm{1e-3}, um{1e-6}, nm{1e-9}, km{1e3}, ft{0.3048};
inline constexpr Area m2{1};
inline constexpr Time s{1}, ms{1e-3};
inline constexpr Frequency Hz{1};
inline constexpr Angle rad{1}, deg{0.017453292519943295};
inline constexpr Pixels px{1};
inline constexpr Power W{1};
inline constexpr Intensity cd{1};
inline constexpr LuminousFlux lm{1};
inline constexpr Illuminance lx{1};
inline constexpr Mass kg{1};
inline constexpr DataSize bit{1}, byte{8}, kbit{1e3}, Mbit{1e6};
}  // namespace units
}  // namespace sightfall
