// SPDX-License-Identifier: GPL-3.0-or-later
// What is looked after, and when.
//   Source   intervals: common practice, no published source
#include <fmt/format.h>

#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

std::string leafy(const Job& job) {
  std::string names;
  for (const site::Veil& veil : job.project().site.veils)
    if (veil.kind == site::VeilKind::kHedge || veil.kind == site::VeilKind::kTree)
      names += (names.empty() ? "" : ", ") + veil.name;
  return names;
}

bool is_battery(const site::Feed& feed) { return feed.kind == site::FeedKind::kBattery; }
bool is_lithium(const site::Feed& feed) { return is_battery(feed) && feed.cells == site::Cells::kLithium; }
bool is_of_lead(const site::Feed& feed) { return is_battery(feed) && !is_lithium(feed); }
bool is_recorder(const site::Feed& feed) { return feed.kind == site::FeedKind::kRecorder; }

std::string named(const Job& job, bool (*is_one)(const site::Feed&)) {
  std::string names;
  for (const site::Feed& feed : job.project().site.feeds)
    if (is_one(feed)) names += (names.empty() ? "" : ", ") + feed.name;
  return names;
}

}  // namespace

draw::Document upkeep(const Job& job) {
  draw::Document document = titled(job.project(), "upkeep", job.asked.date);
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, "Looking after it"});
  blocks.emplace_back(
      Paragraph{"Intervals are common practice, without a published source; dust, salt, spiders and birds make their "
                "own."});
  Table table{{{"what", 7}, {"how often", 3}, {"done on", 3}, {"done on", 3}, {"done on", 3}, {"done on", 3}}, {}, 24};
  const auto row = [&](const std::string& what, const std::string& often) {
    table.rows.push_back({what, often, "", "", "", ""});
  };
  row("each picture is looked at, by day and after dark, beside the one in the report", "every month");
  row("a recording of each camera is found and played", "every month");
  row("glass and domes are cleaned; webs are taken off, above all near infrared", "four times a year");
  row("clocks are compared", "four times a year");
  if (const std::string names = leafy(job); !names.empty())
    row("looked at in leaf from each camera, and pruned where it hides what was promised: " + names,
        "late winter, and in June");
  row("brackets, seals and cables are looked at after storms", "twice a year");
  row("firmware is renewed, passwords of people who left are changed", "twice a year");
  row("sharpness is compared with the report's picture; focus is set anew where it drifted", "every year");
  row("the walk test is done again, by day and after dark", "every year");
  if (const std::string names = named(job, is_battery); !names.empty()) {
    row("the mains are switched off and the time is taken: " + names, "every year");
  }
  if (const std::string names = named(job, is_of_lead); !names.empty())
    row("lead batteries are replaced: " + names, "every 3 to 5 years");
  if (const std::string names = named(job, is_lithium); !names.empty())
    row("lithium batteries are replaced: " + names, "every 8 to 12 years");
  if (const std::string names = named(job, is_recorder); !names.empty())
    row("disks are replaced before they fail: " + names, "every 3 to 5 years");
  for (const loads::CardStorage& card : job.here.loads.storage.cards)
    row("the card is replaced: " + card.camera,
        fmt::format("every {} years or sooner", number(card.lives.low.in(365.25 * day))));
  blocks.emplace_back(table);
  blocks.emplace_back(
      Paragraph{"Work at height and near mains can kill: local codes and licensed trades decide how it is done. Switch "
                "infrared off before anybody works with the eyes close to it for long.",
                draw::Tone::kCaution});
  return document;
}

}  // namespace sightfall::papers
