// SPDX-License-Identifier: GPL-3.0-or-later
// Which lamps a camera's verdicts count on, on its page: a lamp that fails takes its share with it.
#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

std::string source_words(const need::LightShare& light) {
  switch (light.from) {
    case need::LightFrom::kAllRound:
      return "all round (sky, ground)";
    case need::LightFrom::kSunOrMoon:
      return "sun or moon";
    case need::LightFrom::kLamp:
      return "lamp \"" + light.name + "\"";
    case need::LightFrom::kOwnInfrared:
      return "its own infrared";
    case need::LightFrom::kOthersInfrared:
      break;
  }
  return "infrared of \"" + light.name + "\"";
}

std::string sources_words(const std::vector<need::LightShare>& light) {
  std::string words;
  for (const need::LightShare& one : light)
    words += fmt::format("{}{} {}", words.empty() ? "" : ", ", source_words(one), need::share_words(one.share));
  return words.empty() ? "no light that reaches it" : words;
}

/// Ample light asks for no lamp.
bool in_ample_light(const need::Project& project, const std::string& condition) {
  return need::the_named(project.conditions, condition).ample();
}

}  // namespace

std::string relying_on(const Job& job, const std::string& lamp) {
  std::string needs;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    const bool relies =
        std::any_of(verdict.conditions.begin(), verdict.conditions.end(), [&](const need::ConditionShare& one) {
          return !in_ample_light(job.project(), one.condition) &&
                 std::any_of(one.light.begin(), one.light.end(), [&](const need::LightShare& light) {
                   return light.from == need::LightFrom::kLamp && light.name == lamp;
                 });
        });
    if (relies) needs += (needs.empty() ? "" : ", ") + verdict.need;
  }
  return needs;
}

void add_light_relied_on(const Job& job, const CameraPart& part, std::vector<draw::Block>& blocks) {
  draw::Table table{{{"need", 4}, {"in", 3}, {"seen at its worst place by the light of", 7}}, {}};
  for (const need::Verdict& verdict : job.here.check.verdicts)
    for (const need::ConditionShare& one : verdict.conditions)
      if (one.camera == part.camera->name && !in_ample_light(job.project(), one.condition))
        table.rows.push_back({verdict.need, one.condition, sources_words(one.light)});
  if (table.rows.empty()) return;
  blocks.emplace_back(draw::Heading{3, "Whose light these verdicts rely on"});
  blocks.emplace_back(std::move(table));
}

}  // namespace sightfall::papers
