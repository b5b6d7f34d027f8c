// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/pixels.h"

extern "C" {
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

#include "base/check.h"
#include "video/quiet.h"

namespace sightfall::video {
namespace {

// Exact rounding and no processor's shortcuts: the same planes on every machine.
constexpr int kHow = SWS_BILINEAR | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT | SWS_FULL_CHR_H_INP | SWS_BITEXACT;
constexpr int kUnit = 1 << 16;  // libswscale's contrast and saturation of 1

SwsContext* scaler_between(int columns, int rows, AVPixelFormat from, AVPixelFormat to) {
  return sws_getContext(columns, rows, from, columns, rows, to, kHow, nullptr, nullptr, nullptr);
}

SwsContext* scaler_of(void* scaler) { return static_cast<SwsContext*>(scaler); }

/// The picture with its last column and row repeated up to an even size.
std::vector<uint8_t> grown(const Picture& picture, int columns, int rows) {
  constexpr size_t kChannels = 3;
  const size_t from = kChannels * static_cast<size_t>(picture.columns), to = kChannels * static_cast<size_t>(columns);
  std::vector<uint8_t> rgb(to * static_cast<size_t>(rows));
  for (int row = 0; row < rows; ++row) {
    const uint8_t* source = picture.rgb.data() + from * static_cast<size_t>(std::min(row, picture.rows - 1));
    uint8_t* target = rgb.data() + to * static_cast<size_t>(row);
    std::memcpy(target, source, from);
    if (to > from) std::memcpy(target + from, source + from - kChannels, kChannels);
  }
  return rgb;
}

}  // namespace

void IntoPlanes::Free::operator()(void* scaler) const { sws_freeContext(scaler_of(scaler)); }
void FromPlanes::Free::operator()(void* scaler) const { sws_freeContext(scaler_of(scaler)); }

IntoPlanes::IntoPlanes(int columns, int rows) : columns_{columns}, rows_{rows} {
  const Quiet quiet;
  SwsContext* scaler = scaler_between(even(columns), even(rows), AV_PIX_FMT_RGB24, AV_PIX_FMT_YUV420P);
  CHECK_EQ(scaler == nullptr, false);
  scaler_.reset(scaler);
  const int* matrix = sws_getCoefficients(SWS_CS_ITU709);
  sws_setColorspaceDetails(scaler, matrix, 1, matrix, 0, 0, kUnit, kUnit);
}

void IntoPlanes::convert(const Picture& picture, const PlanesOut& planes) const {
  CHECK_EQ(picture.columns, columns_);
  CHECK_EQ(picture.rows, rows_);
  CHECK_EQ(picture.rgb.size(), 3 * static_cast<size_t>(columns_) * static_cast<size_t>(rows_));
  const bool odd = columns_ != even(columns_) || rows_ != even(rows_);
  const std::vector<uint8_t> held = odd ? grown(picture, even(columns_), even(rows_)) : std::vector<uint8_t>{};
  const std::array<const uint8_t*, 1> begin{odd ? held.data() : picture.rgb.data()};
  const std::array<int, 1> stride{3 * even(columns_)};
  sws_scale(scaler_of(scaler_.get()), begin.data(), stride.data(), 0, even(rows_), planes.begin.data(),
            planes.stride.data());
}

Result<Picture> FromPlanes::convert(const PlanesIn& planes, const PlaneKind& kind) {
  if (scaler_ == nullptr || kind != kind_) {
    const Quiet quiet;
    const auto format = static_cast<AVPixelFormat>(kind.format);
    scaler_.reset(sws_isSupportedInput(format) != 0 ? scaler_between(kind.columns, kind.rows, format, AV_PIX_FMT_RGB24)
                                                    : nullptr);
    if (scaler_ == nullptr) {
      const char* name = av_get_pix_fmt_name(format);
      return failure(ErrorKind::kField, fmt::format("its pixels are coded as {}, which cannot be converted to RGB",
                                                    name == nullptr ? "something unknown" : name));
    }
    kind_ = kind;
    const int* from = sws_getCoefficients(kind.matrix == AVCOL_SPC_UNSPECIFIED ? SWS_CS_ITU709 : kind.matrix);
    const int* to = sws_getCoefficients(SWS_CS_ITU709);
    sws_setColorspaceDetails(scaler_of(scaler_.get()), from, kind.full_range ? 1 : 0, to, 1, 0, kUnit, kUnit);
  }
  Picture picture{kind.columns, kind.rows, {}};
  const int stride = 3 * kind.columns;
  picture.rgb.resize(static_cast<size_t>(stride) * static_cast<size_t>(kind.rows));
  uint8_t* const begin = picture.rgb.data();
  sws_scale(scaler_of(scaler_.get()), planes.begin.data(), planes.stride.data(), 0, kind.rows, &begin, &stride);
  return picture;
}

}  // namespace sightfall::video
