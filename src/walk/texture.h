// SPDX-License-Identifier: GPL-3.0-or-later
// Texture of grounds and walls, which gives the eye their scale: a factor about 1 on a surface's reflectance.
//   Model    joints of paving and brick are averaged exactly over a square pixel, and so are the tones of single slabs
//            and bricks, which fade while the pixel grows to three of them; noise is a sum of octaves, each of which
//            fades while the pixel grows from a quarter of its grain to the whole. The mean over an area is 1, so that
//            metered light does not change; seen from far enough a texture is 1
//   In/Out   coordinates and footprint (width of a pixel on the surface) in metres -> factor, 0.3 to 1.7
//   Source   sizes of common kinds from memory, beside each; hash: G. L. Steele et al., Fast splittable pseudorandom
//            number generators, OOPSLA 2014 (its finaliser, from memory)
//   Checked  texture_test.cpp: means, variance falling with the footprint, joints against counting
#pragma once
#include <cstdint>
#include <span>
#include <string_view>

namespace sightfall::walk {

enum class Texture { kPlain, kPaving, kBrick, kGrass, kGravel, kPlaster, kAsphalt };

/// The texture of a material of data/materials.json; plain where it has none.
Texture texture_of(std::string_view material);

/// Points on a surface, as a structure of arrays (m): x and y on the ground; along and up on a wall; the width of a
/// pixel there.
struct TexturePlaces {
  std::span<const float> x, y, footprint;
};

/// The texture's factor at each place.
///   Paving   slabs of 0.4 m square with joints of 8 mm
///   Brick    215 x 65 mm in running bond with joints of 10 mm
void textures_at(Texture texture, const TexturePlaces& places, std::span<float> factor);

/// The same at one.
double texture_at(Texture texture, double x, double y, double footprint);

/// A hash of a whole number: neighbouring numbers give unrelated ones. The same on every machine.
uint64_t mixed(uint64_t number);

/// The same of 32 bits, here so that loops of vectors take it in: A. Appleby's MurmurHash3 finaliser, from memory.
inline uint32_t mixed32(uint32_t h) {
  h = (h ^ (h >> 16U)) * 0x85EBCA6BU;
  h = (h ^ (h >> 13U)) * 0xC2B2AE35U;
  return h ^ (h >> 16U);
}

}  // namespace sightfall::walk
