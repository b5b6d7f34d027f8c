// SPDX-License-Identifier: GPL-3.0-or-later
// What goes to the site: each camera with all that hangs and aims it, the walk test with boxes for what was seen, bars
// to hold up, and a hand-over to sign.
#include <fmt/format.h>

#include "need/words.h"
#include "papers/aim_words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/hazard.h"
#include "papers/mount_place.h"
#include "papers/on_the_spot.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

constexpr double kHandHeight = 26;  // points, so that there is room to write

std::string sharp_words(const CameraPart& part, need::Units units) {
  const std::string at = need::length_words(part.card.focus, units);
  return part.camera->focus ? "focus set at " + at : "focus not known, taken as " + at + ": set it";
}

/// What hangs it, and what has to be mended or asked for first.
std::string hung_words(const Job& job, const CameraPart& part) {
  std::string words = fmt::format("{}, {}\non {}\nHeld by {}.", part.camera->name, part.sheet->name, part.mount->name,
                                  held_by_words(job, *part.mount));
  for (const loads::HeldMount& held : job.here.loads.mount.mounts) {
    if (held.mount != part.mount->name || !part.mount->fixing) continue;
    if (held.pull.held == loads::Held::kMarginal || held.pull.held == loads::Held::kMissed)
      words +=
          fmt::format("\n{}, so not as entered: {}.", held.pull.held == loads::Held::kMissed ? "MISSED" : "MARGINAL",
                      held.pull.remedy.empty() ? "ask for another mount or fixing" : held.pull.remedy);
    if (held.pole &&
        (held.pole->stress.held == loads::Held::kMarginal || held.pole->stress.held == loads::Held::kMissed))
      words += "\nPole, not as entered: " + held.pole->stress.remedy + ".";
  }
  if (!part.mount->access.empty()) words += "\nReached, as entered: " + part.mount->access + ".";
  if (may_burst(job.project().site, part.mount->at, part.mount))
    words += fmt::format("\nBEFORE DRILLING HERE: {}.", kHazardHere);
  return words;
}

/// As on the camera's page of the report, which stays below.
std::string aimed_words(const Job& job, const CameraPart& part, const site::Scene& in_leaf) {
  const need::Units units = job.project().settings.units;
  const need::Aim& aim = part.aim;
  std::string words = mount_place_words(job.project(), *part.mount, in_leaf);
  words += fmt::format(".\nLens {} above the ground, {:g} mm, {}.\nHeading {}, tilted {} down",
                       need::measured_words(aim.height, units), aim.focal.in(mm), sharp_words(part, units),
                       angle(aim.heading), angle(aim.tilt));
  if (aim.roll != Angle{}) words += ", rolled " + angle(aim.roll);
  words += ".";
  char letter = 'a';
  for (const need::AimPoint& point : aim.points)
    words += fmt::format("\n{}{}  {}: {} away at {}, {} % from the left, {} % from the top.", part.number, letter++,
                         aim_point_words(job, part, point, in_leaf), need::length_words(point.distance, units),
                         angle(point.heading), number(100 * point.right), number(100 * point.down));
  if (aim.points.empty()) words += "\nNothing fixed to aim by: check with somebody at the place that matters.";
  return words;
}

/// One row a camera, which no page's end parts: all that is needed on the ladder.
void add_hanging(const Job& job, draw::Document& document) {
  document.blocks.emplace_back(Heading{1, "Each camera: hang it, aim it"});
  document.blocks.emplace_back(Paragraph{kHolesAside});
  std::string about =
      "Headings are clockwise from the plan's north, distances are on the ground. Points stand so far from the left "
      "and "
      "from the top edge of the picture when it is aimed.";
  if (const auto& anchor = job.project().site.anchor; anchor && anchor->turn != Angle{})
    about += fmt::format(" True north is {} clockwise of the plan's.", angle(anchor->turn));
  document.blocks.emplace_back(Paragraph{about});
  document.blocks.emplace_back(Paragraph{
      fmt::format("Before drilling find cables and pipes in the wall. Where fuel, gas or solvents are kept or dust can "
                  "burn, named here or not, {}.",
                  kHazardAside),
      draw::Tone::kCaution});
  Table table{{{"", 16, true}, {"camera, and what holds it", 172}, {"place and aim", 187}, {"by hand", 118}}, {}};
  const site::Scene in_leaf{job.project().site, site::Leaves::kOn};
  for (const CameraPart& part : job.cameras)
    table.rows.push_back(
        {std::to_string(part.number), hung_words(job, part), aimed_words(job, part, in_leaf),
         "from holes up to lens:\n\n____________________\nholes at:\n\n____________________\n[  ] hung   "
         "[  ] aimed\n[  ] focus set"});
  document.blocks.emplace_back(table);
  document.blocks.emplace_back(
      Paragraph{"Holes at = lens above the ground - from holes up to lens; where the lens hangs below the holes that "
                "figure is negative, and the holes lie higher.",
                draw::Tone::kNote});
}

void add_signing(const Job& job, draw::Document& document) {
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, "Hand-over", true});  // a page that can be signed and kept apart
  blocks.emplace_back(
      Paragraph{fmt::format("{}: {}, predicted as {}.", job.project().name,
                            counted(job.here.check.verdicts.size(), "need"), counts(job.here.check.verdicts)),
                draw::Tone::kLead});
  blocks.emplace_back(
      draw::Points{{"The walk test was done by day and after dark, at the marks above, with the owner.",
                    "What was not seen as promised is listed below, with what is done about it and by when.",
                    "The owner can play back, find and copy a recording, and has done it once.",
                    "Settings, address plan, plan and schedules are with the owner; passwords were handed over apart.",
                    "Signs are up. Neighbours whose ground or windows show were told, or masks are set and were tried.",
                    "Clocks of all devices show the same time."},
                   true});
  Table open{{{"what is open", 6}, {"who", 2}, {"by when", 2}}, {}, kHandHeight};
  for (int i = 0; i < 4; ++i) open.rows.push_back({"", "", ""});
  blocks.emplace_back(open);
  Table signatures{{{"", 2}, {"name", 4}, {"date", 2}, {"signature", 4}},
                   {{"installer", job.asked.by, "", ""}, {"owner", "", "", ""}},
                   34};
  blocks.emplace_back(signatures);
  blocks.emplace_back(
      Paragraph{"Who signs says what was seen on the day. It is no certificate, and no statement that a standard is "
                "complied with.",
                draw::Tone::kNote});
}

}  // namespace

draw::Document field_sheet(const Job& job) {
  draw::Document document = titled(job.project(), "field sheet", job.asked.date);
  if (!job.cameras.empty()) add_hanging(job, document);
  add_walk_test(job, document.blocks);
  add_test_bars(job, document.blocks);
  add_signing(job, document);
  return document;
}

}  // namespace sightfall::papers
