// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/fixing_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace sightfall::papers {

using namespace units;

std::string fixing_words(const site::Fixing& fixing) {
  const char* kinds[] = {"wood screw", "lag screw", "anchor", "clamp"};
  std::string words = kinds[static_cast<int>(fixing.kind)];
  if (fixing.diameter) words += fmt::format(", {:g} mm", fixing.diameter->in(mm));
  if (fixing.depth) words += fmt::format(", {:g} mm deep", fixing.depth->in(mm));
  if (fixing.allowable) words += fmt::format(", for at least {:g} N each there", fixing.allowable->in(N));
  return words;
}

std::string held_by_words(const Job& job, const site::Mount& mount) {
  const bool overhead = mount.held_by == site::HeldBy::kCeiling;
  const std::string base = (mount.surface.empty() ? "a base that is not named: look, and ask" : mount.surface) +
                           std::string(overhead ? ", overhead" : "");
  if (mount.fixing) {
    const bool around = mount.fixing->kind == site::FixingKind::kClamp;
    std::string words =
        fmt::format("{} x {}, {} {}", mount.fixing->count, fixing_words(*mount.fixing), around ? "on" : "into", base);
    if (around && mount.pole) words += fmt::format(", {:g} mm across there", mount.pole->outer.in(mm));
    if (mount.fixing->spread)
      words +=
          fmt::format("; {} {:g} mm apart", overhead ? "across" : "upper and lower ones", mount.fixing->spread->in(mm));
    return words;
  }
  std::string words = "no fixing is stated; in: " + base;
  for (const loads::HeldMount& held : job.here.loads.mount.mounts)
    if (held.mount == mount.name && !held.pull.remedy.empty()) words += "; " + held.pull.remedy;
  return words;
}

std::string bracket_words(const CameraPart& part) {
  std::string words = fmt::format("none is named: ask the camera's maker for one for {} on {}", part.sheet->name,
                                  part.mount->surface.empty() ? "what it is fixed to" : part.mount->surface);
  if (part.mount->fixing && part.mount->fixing->arm)
    words += fmt::format("; with it the camera's middle is {:g} mm off", part.mount->fixing->arm->in(mm));
  if (part.sheet->body)
    words += fmt::format("; the body is {:g} x {:g} mm, width and height", part.sheet->body->wide.in(mm),
                         part.sheet->body->tele.in(mm));
  return words;
}

}  // namespace sightfall::papers
