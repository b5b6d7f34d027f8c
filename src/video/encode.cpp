// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/encode.h"

#include <utility>

#include "base/check.h"
#include "video/compress.h"
#include "video/decompress.h"
#include "video/mark.h"
#include "video/mp4_writer.h"

namespace sightfall::video {
namespace {

tl::unexpected<Error> no_pictures() {
  return failure(ErrorKind::kRequest, "there are no pictures to encode; one at least is needed");
}

/// The part of a picture that was there before odd sides grew.
Picture cut_back(Picture picture, int columns, int rows) {
  if (picture.columns == columns && picture.rows == rows) return picture;
  Picture cut{columns, rows, {}};
  const int kept = 3 * columns, stride = 3 * picture.columns;
  for (int row = 0; row < rows; ++row) {
    const auto begin = picture.rgb.begin() + static_cast<std::ptrdiff_t>(row) * stride;
    cut.rgb.insert(cut.rgb.end(), begin, begin + kept);
  }
  return cut;
}

}  // namespace

struct Encoder::Impl {
  Compressor compressor;
  Mp4Writer writer;
  std::vector<FrameMark> marks = {};

  Result<void> write(const Packet& packet) {
    marks.push_back(mark_of(packet, compressor.head()));
    return writer.add(packet);
  }
};

Encoder::Encoder(std::unique_ptr<Impl> impl) : impl_{std::move(impl)} {}
Encoder::Encoder(Encoder&&) noexcept = default;
Encoder& Encoder::operator=(Encoder&&) noexcept = default;
Encoder::~Encoder() = default;

Result<Encoder> Encoder::open(const std::string& path, int columns, int rows, const EncodeSettings& settings) {
  Result<Compressor> compressor = Compressor::open(columns, rows, settings);
  if (!compressor) return tl::make_unexpected(compressor.error());
  Result<Mp4Writer> writer = Mp4Writer::open(path, compressor->head());
  if (!writer) return tl::make_unexpected(writer.error());
  return Encoder{std::make_unique<Impl>(Impl{std::move(*compressor), std::move(*writer)})};
}

Result<void> Encoder::add(const Picture& picture) {
  return impl_->compressor.add(picture, [&](const Packet& packet) { return impl_->write(packet); });
}

Result<StreamFacts> Encoder::finish() {
  Result<void> done = impl_->compressor.finish([&](const Packet& packet) { return impl_->write(packet); });
  if (done && impl_->marks.empty()) return no_pictures();
  if (done) done = impl_->writer.finish();
  if (!done) return tl::make_unexpected(done.error());
  return facts_with(impl_->compressor.head(), impl_->marks);
}

Result<Encoded> encode(std::span<const Picture> pictures, const EncodeSettings& settings, Back back) {
  if (pictures.empty()) return no_pictures();
  const int columns = pictures.front().columns, rows = pictures.front().rows;
  Result<Compressor> compressor = Compressor::open(columns, rows, settings);
  if (!compressor) return tl::make_unexpected(compressor.error());
  Result<Decompressor> decompressor = Decompressor::open(compressor->head());
  if (!decompressor) return tl::make_unexpected(decompressor.error());
  Encoded encoded;
  std::vector<FrameMark> marks;
  const auto keep = [&](Picture picture) { encoded.pictures.push_back(cut_back(std::move(picture), columns, rows)); };
  const auto take = [&](const Packet& packet) {
    marks.push_back(mark_of(packet, compressor->head()));
    encoded.quantisers.push_back(packet.quantiser);
    return back == Back::kPicturesToo ? decompressor->add(packet, keep) : Result<void>{};
  };
  Result<void> done;
  for (size_t i = 0; i < pictures.size() && done; ++i) done = compressor->add(pictures[i], take);
  if (done) done = compressor->finish(take);
  if (done && back == Back::kPicturesToo) done = decompressor->finish(keep);
  if (!done) return tl::make_unexpected(done.error());
  encoded.facts = facts_with(compressor->head(), marks);
  return encoded;
}

}  // namespace sightfall::video
