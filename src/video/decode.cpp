// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/decode.h"

#include <optional>
#include <utility>

#include "video/clip_reader.h"
#include "video/decompress.h"
#include "video/mark.h"

namespace sightfall::video {
namespace {

using Each = std::function<Result<void>(const Packet&)>;

/// The facts of all that the reader holds, with each frame shown to `each` on the way.
Result<StreamFacts> passed(ClipReader& reader, const Each& each) {
  std::vector<FrameMark> marks;
  while (true) {
    Result<std::optional<Packet>> packet = reader.next();
    if (!packet) return tl::make_unexpected(packet.error());
    if (!*packet) return facts_with(reader.head(), marks);
    marks.push_back(mark_of(**packet, reader.head()));
    if (Result<void> taken = each(**packet); !taken) return tl::make_unexpected(taken.error());
  }
}

template <class T>
Result<T> in_file(Result<T> result, const std::string& path) {
  if (!result) result.error().where.file = path;
  return result;
}

}  // namespace

Result<StreamFacts> facts_of(const std::string& path) {
  return ClipReader::open(path).and_then(
      [](ClipReader reader) { return passed(reader, [](const Packet&) { return Result<void>{}; }); });
}

Result<Clip> read(const std::string& path, const std::function<bool(Picture)>& take) {
  Result<ClipReader> reader = ClipReader::open(path);
  if (!reader) return tl::make_unexpected(reader.error());
  Result<Decompressor> decoder = Decompressor::open(reader->head());
  if (!decoder) return in_file<Clip>(tl::make_unexpected(decoder.error()), path);
  Clip clip;
  bool wanted = true;
  const auto hand_over = [&](Picture picture) {
    if (!wanted) return;
    ++clip.pictures;
    wanted = take(std::move(picture));
  };
  Result<StreamFacts> facts =
      passed(*reader, [&](const Packet& packet) { return wanted ? decoder->add(packet, hand_over) : Result<void>{}; });
  Result<void> finished = facts && wanted ? decoder->finish(hand_over) : Result<void>{};
  if (!facts) return in_file<Clip>(tl::make_unexpected(facts.error()), path);
  if (!finished) return in_file<Clip>(tl::make_unexpected(finished.error()), path);
  clip.facts = std::move(*facts);
  if (wanted && clip.pictures != clip.facts.frames)
    return in_file<Clip>(failure(ErrorKind::kSyntax, "it is damaged: some of its frames give no picture"), path);
  return clip;
}

}  // namespace sightfall::video
