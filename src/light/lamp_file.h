// SPDX-License-Identifier: GPL-3.0-or-later
// Photometric files: IESNA LM-63 (1986, 1991, 1995, 2002) and EULUMDAT.
//   Frame    a luminaire's way down is the lamp's axis (candela.h); types A and B of LM-63 have 0, 0 along it. LM-63
//            begins type C where EULUMDAT has C 90: the street side
//   Flux     LM-63: intensities times multiplier and ballast factor, in 1986 and 1991 the ballast-lamp factor too.
//            EULUMDAT: per 1000 lm, times its factor and the flux of the first set of lamps; other sets are to be had
//            instead of it
//   Tilt     LM-63's factors for a lamp out of its rated position are read and left out: the lamp is taken to be in it.
//            EULUMDAT's tilt while measuring is left out too
//   Source   LM-63-2002 field order and key definitions; EULUMDAT after Stockmar 1990/1998; symmetry, the side of C 90
//            and the sets from memory. Where documents of the format disagree, the wider reading is taken (EULUMDAT
//            type 0 is accepted)
//   Limits   kLargestLampFile bytes, kMostAngles angles each way: more is refused before anything is kept
//   Promise  any text gives a lamp or errors with line numbers; nothing crashes; intensities are finite, not negative
//   Checked  lamp_file_test.cpp; tests/outside/lamp_flux_test.cpp; tests/fuzz/lamp_fuzz.cpp
#pragma once
#include <string>
#include <string_view>

#include "base/result.h"
#include "light/candela.h"

namespace sightfall::light {

inline constexpr size_t kLargestLampFile = size_t{16} << 20;
inline constexpr int kMostAngles = 2000;

struct LampFile {
  std::string name;              ///< of the luminaire, as the file says
  Candela candela;               ///< of the whole lamp, with the file's factors
  LuminousFlux lamps;            ///< the flux that the file states for its lamps; zero where it is absolute
  Length width, length, height;  ///< of what shines
};

/// Tells the two formats apart by their text and reads it. Errors name the file, the line, what was found and what is
/// allowed.
Result<LampFile> parse_lamp(std::string_view text, const std::string& file_name);
Result<LampFile> parse_lm63(std::string_view given, const std::string& file_name);
Result<LampFile> parse_eulumdat(std::string_view given, const std::string& file_name);

}  // namespace sightfall::light
