// SPDX-License-Identifier: GPL-3.0-or-later
// Heights of holes, to measure before drilling; the walk test on paper: what was promised at each need's worst place,
// with boxes for what was seen; and a page to sign.
#include <fmt/format.h>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

constexpr double kHandHeight = 26;  // points, so that there is room to write

double away(const Job& job, const need::WorstPlace& worst) {
  for (const CameraPart& part : job.cameras)
    if (part.camera->name == worst.camera) return geom::norm(geom::plan(worst.at_site) - part.mount->at);
  return 0;
}

std::string facing_words(const need::Need& need) {
  const std::string who =
      need.subject == need::Subject::kPlate || need.subject == need::Subject::kVehicle ? "a vehicle, " : "";
  switch (need.facing) {
    case need::Facing::kTravel:
      return who + "facing along the way";
    case need::Facing::kHeading:
      return who + "facing " + angle(need.facing_heading);
    case need::Facing::kCamera:
      break;
  }
  return who + "facing the camera";
}

/// A line a camera for the two figures that only bracket and camera in hand give.
void add_holes(const Job& job, draw::Document& document) {
  const need::Units units = job.project().settings.units;
  document.blocks.emplace_back(Heading{1, "Before drilling: how high the holes are"});
  document.blocks.emplace_back(Paragraph{kHolesAside});
  Table table{{{"", 1, true},
               {"camera", 3},
               {"mount, and what holds it", 7},
               {"lens at", 2, true},
               {"from holes up to lens", 3},
               {"holes at", 2},
               {"", 1}},
              {},
              kHandHeight};
  for (const CameraPart& part : job.cameras)
    table.rows.push_back({std::to_string(part.number), part.camera->name,
                          part.mount->name + "\n" + held_by_words(job, *part.mount),
                          need::length_words(part.aim.height, units), "", "", "[  ]"});
  document.blocks.emplace_back(table);
  document.blocks.emplace_back(
      Paragraph{"Holes at = lens at - from holes up to lens; where the lens hangs below the "
                "holes that figure is negative, and the holes lie higher.",
                draw::Tone::kNote});
}

void add_marks(const Job& job, draw::Document& document) {
  const need::Units units = job.project().settings.units;
  Table table{{{"", 1, true},
               {"need", 5},
               {"stand at", 6},
               {"camera", 3},
               {"when", 3},
               {"promised", 4},
               {"seen", 3},
               {"yes", 1},
               {"no", 1}},
              {},
              kHandHeight};
  int number = 0;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    if (!verdict.worst) continue;
    const need::WorstPlace& worst = *verdict.worst;
    std::string where = place_on_plan(geom::plan(worst.at_site), units) + "\n" +
                        facing_words(need::the_named(job.project().needs, verdict.need));
    if (!worst.camera.empty())
      where += fmt::format("\n{} from its mount", need::length_words(Length{away(job, worst)}, units));
    table.rows.push_back(
        {std::to_string(++number), verdict.need, where, worst.camera.empty() ? "none" : worst.camera, worst.condition,
         fmt::format("{}: {}", verdict_word(verdict.answer), need::density_words(worst.delivered, units)), "", "[  ]",
         "[  ]"});
  }
  if (!table.rows.empty()) document.blocks.emplace_back(table);
}

void add_signing(const Job& job, draw::Document& document) {
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, "Hand-over", true});
  blocks.emplace_back(Paragraph{fmt::format("{}: {} needs were promised as {}.", job.project().name,
                                            job.here.check.verdicts.size(), counts(job.here.check.verdicts)),
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
  for (int i = 0; i < 5; ++i) open.rows.push_back({"", "", ""});
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
  auto& blocks = document.blocks;
  if (!job.cameras.empty()) add_holes(job, document);
  blocks.emplace_back(Heading{1, "Walk test", !job.cameras.empty()});
  blocks.emplace_back(
      Paragraph{"Stand somebody at each mark, facing as the need says, in the light that is named, and look at the "
                "recording, not at the live picture. \"Seen\": what could be made out, or px/m where a target of known "
                "width was held up: its width in pixels over its width in metres."});
  blocks.emplace_back(Paragraph{
      "Nobody climbs with a telephone in the hand, and nobody stands in a drive without somebody who watches for cars.",
      draw::Tone::kCaution});
  add_marks(job, document);
  add_signing(job, document);
  return document;
}

}  // namespace sightfall::papers
