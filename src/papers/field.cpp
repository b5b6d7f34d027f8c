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
  return (part.camera->focus ? "focus set at " : "focus not stated: set it sharp at ") +
         need::length_words(part.card.focus, units);
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
    words += fmt::format("\n{}{}  {}{}, {} % from the left, {} % from the top.", part.number, letter++,
                         aim_point_words(job, part, point, in_leaf),
                         point.name == need::kPlumb
                             ? std::string{}
                             : fmt::format(": {} away at {}", taped_words(point.distance, units), angle(point.heading)),
                         number(100 * point.right), number(100 * point.down));
  if (aim.points.empty()) words += "\nNothing fixed to aim by: check with somebody at the place that matters.";
  return words;
}

constexpr const char* kHolesByHand =
    "from holes up to lens:\n\n____________________\nholes at:\n\n____________________";
constexpr const char* kClampByHand =
    "from clamps up to lens:\n\n____________________\nclamps at:\n\n____________________";

bool around_pole(const site::Mount& mount) { return mount.fixing && mount.fixing->kind == site::FixingKind::kClamp; }

/// What is done before what, by somebody who would not climb twice.
void add_order(draw::Document& document) {
  document.blocks.emplace_back(Heading{1, "In this order"});
  document.blocks.emplace_back(draw::Points{
      {("What is marked \"settle before buying\" in the materials is settled. What is MISSED or MARGINAL in the report "
        "is decided with the owner, before anything that it needs is bought."),
       ("Ways are dug and fixed; cables are pulled, labelled at both ends and tested (every wire from end to end and "
        "its length; of fibre, its loss) before anything hangs."),
       ("On a table, one after another: each device gets its name, address, password, firmware and settings, as the "
        "settings sheets say, from a laptop with the address that the address plan keeps free for it. Each camera's "
        "picture is seen there, through the recorder or by the camera's own page."),
       ("Bracket, box and seals, then the camera; come down, look at its picture on the laptop, correct, and look "
        "again. Focus last."),
       "Masks, when the aim has been checked. Then the walk test, and the hand-over."},
      true});
}

/// One row a camera, which no page's end parts: all that is needed on the ladder.
void add_hanging(const Job& job, draw::Document& document) {
  document.blocks.emplace_back(Heading{1, "Each camera: hang it, aim it"});
  document.blocks.emplace_back(Paragraph{kHolesAside});
  document.blocks.emplace_back(
      Paragraph{"Headings are clockwise from the plan's north, distances are on the ground, posts and piers are "
                "measured to their "
                "middle. Points stand so far from the left and from the top edge of the picture when it is aimed. " +
                north_words(job.project())});
  document.blocks.emplace_back(Paragraph{
      fmt::format("Before drilling find cables and pipes in the wall. Where fuel, gas or solvents are kept or dust can "
                  "burn, named here or not, {}.",
                  kHazardAside),
      draw::Tone::kCaution});
  document.blocks.emplace_back(
      Paragraph{"Holes (or clamps) at = lens above the ground - from them up to the lens; where the lens hangs below "
                "them that figure is negative, and they lie higher.",
                draw::Tone::kNote});
  Table table{{{"", 16, true}, {"camera, and what holds it", 144}, {"place and aim", 225}, {"by hand", 108}}, {}};
  const site::Scene in_leaf{job.project().site, site::Leaves::kOn};
  for (const CameraPart& part : job.cameras)
    table.rows.push_back({std::to_string(part.number), hung_words(job, part), aimed_words(job, part, in_leaf),
                          std::string(around_pole(*part.mount) ? kClampByHand : kHolesByHand) +
                              "\n[  ] hung   [  ] aimed\n[  ] focus set"});
  document.blocks.emplace_back(table);
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
  add_order(document);
  if (!job.cameras.empty()) add_hanging(job, document);
  add_walk_test(job, document.blocks);
  add_test_bars(job, document.blocks);
  add_signing(job, document);
  return document;
}

}  // namespace sightfall::papers
