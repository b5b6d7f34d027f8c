// SPDX-License-Identifier: GPL-3.0-or-later
// Hostile photometric files: whatever the bytes are, each reader answers with an error or with a lamp whose intensities
// are finite and not negative in every direction.
#include <cmath>
#include <cstdint>
#include <limits>
#include <string_view>

#include "base/check.h"
#include "light/lamp_file.h"

namespace sightfall::light {
namespace {

constexpr double kLargest = std::numeric_limits<double>::max();

void check_lamp(const LampFile& lamp) {
  const double largest = lamp.candela.largest().si();
  for (const double value :
       {largest, lamp.candela.flux().si(), lamp.lamps.si(), lamp.width.si(), lamp.length.si(), lamp.height.si()}) {
    CHECK_LE(0, value);
    CHECK_LE(value, kLargest);
  }
  for (double gamma = 0; gamma < 3.15; gamma += 0.45)
    for (double plane = 0; plane < 6.3; plane += 0.7) {
      const double value = lamp.candela.at(Angle{gamma}, Angle{plane}).si();
      CHECK_LE(0, value);
      CHECK_LE(value, largest * (1 + 1e-12));
    }
}

void check(const Result<LampFile>& lamp) {
  if (lamp) return check_lamp(*lamp);
  CHECK_GT(lamp.error().text.size(), size_t{0});
  CHECK_EQ(lamp.error().where.file, "fuzz");
}

}  // namespace
}  // namespace sightfall::light

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace sightfall::light;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  check(parse_lamp(text, "fuzz"));
  check(parse_lm63(text, "fuzz"));
  check(parse_eulumdat(text, "fuzz"));
  return 0;
}
