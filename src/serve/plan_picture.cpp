// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/plan_picture.h"

#include <fmt/format.h>
#include <png.h>
#include <turbojpeg.h>

#include <array>
#include <cstring>
#include <memory>
#include <optional>
#include <string>
#include <utility>

namespace sightfall::serve {
namespace {

using Bytes = std::span<const uint8_t>;
using video::Picture;

constexpr std::array<uint8_t, 8> kPngMark{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
constexpr std::array<uint8_t, 3> kJpegMark{0xFF, 0xD8, 0xFF};
constexpr size_t kChannels = 3;

bool begins_with(Bytes bytes, Bytes mark) {
  return bytes.size() >= mark.size() && std::memcmp(bytes.data(), mark.data(), mark.size()) == 0;
}

std::optional<Error> too_large(int64_t columns, int64_t rows) {
  if (columns >= 1 && rows >= 1 && columns <= kMostPlanSide && rows <= kMostPlanSide &&
      columns * rows <= kMostPlanPixels)
    return std::nullopt;
  return Error{ErrorKind::kTooLarge,
               fmt::format("the picture is {} x {} pixels; 1 to {} a side are allowed, {} million in all", columns,
                           rows, kMostPlanSide, kMostPlanPixels / 1'000'000),
               {}};
}

tl::unexpected<Error> broken(const char* kind, const std::string& why) {
  return failure(ErrorKind::kSyntax,
                 fmt::format("is a {} that is cut short, damaged or of a kind that is not read: {}", kind, why));
}

struct FreeDecoder {
  void operator()(void* decoder) const { tjDestroy(decoder); }
};

/// Numbers as the camera wrote them, in its order of bytes.
class Exif {
 public:
  explicit Exif(Bytes tiff) : tiff_{tiff}, little_{tiff.size() > 1 && tiff[0] == 'I'} {}

  size_t two(size_t at) const {
    if (at + 2 > tiff_.size()) return 0;
    const size_t first = tiff_[at], second = tiff_[at + 1];
    return little_ ? first + 256 * second : 256 * first + second;
  }
  size_t four(size_t at) const {
    const size_t first = two(at), second = two(at + 2);
    return little_ ? first + 65536 * second : 65536 * first + second;
  }
  size_t size() const { return tiff_.size(); }

 private:
  Bytes tiff_;
  bool little_;
};

/// 1 to 8, as the tag Orientation says; 1 when nothing is said.
size_t orientation_in(Bytes tiff) {
  constexpr size_t kMark = 42, kEntry = 12, kOrientation = 0x0112, kMost = 8;
  const Exif exif(tiff);
  if (exif.two(2) != kMark) return 1;
  const size_t table = exif.four(4);
  if (table >= exif.size()) return 1;
  for (size_t i = 0; i < exif.two(table); ++i) {
    const size_t entry = table + 2 + kEntry * i;
    if (entry + kEntry > exif.size()) return 1;
    if (exif.two(entry) != kOrientation) continue;
    const size_t value = exif.two(entry + 8);
    return value >= 1 && value <= kMost ? value : 1;
  }
  return 1;
}

size_t orientation_of(Bytes jpeg) {
  constexpr uint8_t kMarker = 0xFF, kApp1 = 0xE1, kStartOfScan = 0xDA;
  constexpr std::array<uint8_t, 6> kExif{'E', 'x', 'i', 'f', 0, 0};
  for (size_t at = 2; at + 4 <= jpeg.size() && jpeg[at] == kMarker && jpeg[at + 1] != kStartOfScan;) {
    const size_t length = 256 * size_t{jpeg[at + 2]} + jpeg[at + 3];
    if (length < 2 || at + 2 + length > jpeg.size()) return 1;
    const Bytes segment = jpeg.subspan(at + 4, length - 2);
    if (jpeg[at + 1] == kApp1 && begins_with(segment, kExif)) return orientation_in(segment.subspan(kExif.size()));
    at += 2 + length;
  }
  return 1;
}

Picture upright(Picture picture, size_t orientation) {
  if (orientation == 1) return picture;
  constexpr size_t kFirstOnItsSide = 5;
  const bool on_side = orientation >= kFirstOnItsSide;
  const bool flip_columns = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
  const bool flip_rows = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  Picture turned{on_side ? picture.rows : picture.columns, on_side ? picture.columns : picture.rows, {}};
  turned.rgb.resize(picture.rgb.size());
  uint8_t* target = turned.rgb.data();
  for (int row = 0; row < turned.rows; ++row)
    for (int column = 0; column < turned.columns; ++column, target += kChannels) {
      int from_column = on_side ? row : column, from_row = on_side ? column : row;
      if (flip_columns) from_column = picture.columns - 1 - from_column;
      if (flip_rows) from_row = picture.rows - 1 - from_row;
      const size_t from =
          static_cast<size_t>(from_row) * static_cast<size_t>(picture.columns) + static_cast<size_t>(from_column);
      std::memcpy(target, picture.rgb.data() + kChannels * from, kChannels);
    }
  return turned;
}

}  // namespace

bool is_png(Bytes bytes) { return begins_with(bytes, kPngMark); }
bool is_jpeg(Bytes bytes) { return begins_with(bytes, kJpegMark); }

Result<Picture> decode_png(Bytes bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  const std::unique_ptr<png_image, decltype(&png_image_free)> freed(&image, png_image_free);
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0) return broken("PNG", image.message);
  if (auto error = too_large(image.width, image.height)) return tl::make_unexpected(std::move(*error));
  image.format = PNG_FORMAT_RGB;
  Picture picture{static_cast<int>(image.width), static_cast<int>(image.height), {}};
  picture.rgb.resize(PNG_IMAGE_SIZE(image));
  constexpr uint8_t kWhite = 255;
  const png_color white{kWhite, kWhite, kWhite};
  if (png_image_finish_read(&image, &white, picture.rgb.data(), 0, nullptr) == 0) return broken("PNG", image.message);
  return picture;
}

Result<Picture> decode_jpeg(Bytes bytes) {
  const std::unique_ptr<void, FreeDecoder> decoder(tjInitDecompress());
  if (decoder == nullptr) return broken("JPEG", "no memory");
  int columns = 0, rows = 0, sampling = 0, space = 0;
  if (tjDecompressHeader3(decoder.get(), bytes.data(), bytes.size(), &columns, &rows, &sampling, &space) != 0 ||
      columns < 1 || rows < 1)
    return broken("JPEG", tjGetErrorStr2(decoder.get()));
  if (auto error = too_large(columns, rows)) return tl::make_unexpected(std::move(*error));
  Picture picture{columns, rows, {}};
  picture.rgb.resize(kChannels * static_cast<size_t>(columns) * static_cast<size_t>(rows));
  // A warning is a picture of which a part is missing; very many scans are made to take long.
  constexpr int kStrict = TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS;
  if (tjDecompress2(decoder.get(), bytes.data(), bytes.size(), picture.rgb.data(), columns, 0, rows, TJPF_RGB,
                    kStrict) != 0)
    return broken("JPEG", tjGetErrorStr2(decoder.get()));
  return upright(std::move(picture), orientation_of(bytes));
}

}  // namespace sightfall::serve
