// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>
#include <string>

#include "file/clock.h"
#include "file/describe.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 5> kLampLights{"led", "halogen", "sodium", "infrared 850", "infrared 940"};
constexpr std::array<std::string_view, 3> kBurns{"after dark", "always", "when listed"};
constexpr std::array<std::string_view, 2> kLeaves{"on", "off"};
constexpr std::array<std::string_view, 6> kNamedLights{"bright day", "overcast",   "dusk",
                                                       "lit night",  "dark night", "fog"};
constexpr std::array<std::string_view, 3> kSkies{"clear", "overcast", "storm"};
constexpr std::array<std::string_view, 4> kAirs{"clear", "haze", "fog", "rain"};

site::ClockTime clock_time(const std::string& date, const std::string& time) {
  const auto number = [](const std::string& text, size_t from, size_t length) {
    return std::stoi(text.substr(from, length));
  };
  return {number(date, 0, 4), number(date, 5, 2), number(date, 8, 2), number(time, 0, 2), number(time, 3, 2)};
}

/// Date and time belong together.
void describe_clock(Form& form, std::optional<site::ClockTime>& when) {
  std::string date, time;
  if (when) {
    date = fmt::format("{:04}-{:02}-{:02}", when->year, when->month, when->day);
    time = fmt::format("{:02}:{:02}", when->hour, when->minute);
  }
  form.date({"date", kOptional,
             "day by the calendar of the anchor's time zone, `YYYY-MM-DD`; with `time`, and without `light`"},
            kFirstYear, kLastYear, date);
  form.time({"time", kOptional, "hour by the clocks of that time zone, `HH:MM`"}, time);
  if (date.empty() && !time.empty()) form.fault("date", "missing; a time needs a date beside it");
  if (!date.empty() && time.empty()) form.fault("time", "missing; a date needs a time beside it");
  if (!date.empty() && !time.empty()) when = clock_time(date, time);
}

/// The sky belongs to a date; a named light brings its own.
void describe_sky(Form& form, site::Condition& condition) {
  std::optional<site::Weather> sky;
  if (condition.when && condition.weather != site::Weather::kClear) sky = condition.weather;
  form.choice({"sky", kOptional, "with a date only; clear when absent"}, kSkies, sky);
  if (sky && condition.light)
    form.fault("sky", "allowed only with a date; a named light brings its own sky");
  else if (sky && !condition.when)
    form.fault("date", "missing; a sky is allowed only with a date and a time");
  condition.weather = sky.value_or(site::Weather::kClear);
}

}  // namespace

Words named_light_words() { return kNamedLights; }

void describe(Form& form, site::Lamp& lamp) {
  form.name(lamp.name);
  form.point({"at", kRequired, "where it is on the plan"}, lamp.at);
  form.number({"height_m", kMetres, 0, kRequired, 200, "of its light above the ground under it"}, lamp.height);
  form.number({"heading_deg", kDegrees, -360, 0, 360, "of its axis, clockwise from the plan's north, its y axis"},
              lamp.heading);
  form.number({"tilt_deg", kDegrees, -90, 90, 90, "of its axis below the horizon; 90 is straight down"}, lamp.tilt);
  form.choice({"light", "led", "what its light is made of; infrared with its wavelength in nm"}, kLampLights,
              lamp.light);
  form.text({"photometry", kOptional,
             "file of its light (LM-63 or EULUMDAT) in the document's folder or below it; a visible lamp has this or "
             "`lumens`"},
            lamp.photometry);
  form.number({"lumens", kLumens, 1, kOptional, 1e7, "of a visible lamp without a file"}, lamp.lumens);
  form.number({"draw_w", kWatts, 0.01, kOptional, 1e5, "electrical, of an infrared lamp, which needs it"}, lamp.draw);
  form.number({"beam_deg", kDegrees, 1, kOptional, 179,
               "full width at half of the intensity on its axis; a matt surface's when absent; not with a file"},
              lamp.beam);
  form.number({"flicker", "", 0, kOptional, 1, "swing on the mains over its mean; typical of its light when absent"},
              lamp.flicker);
  form.choice({"burns", "after dark", "when it burns in a condition that lists no lamps"}, kBurns, lamp.burns);
}

void describe(Form& form, site::Condition& condition) {
  form.name(condition.name);
  form.choice({"leaves", kRequired, "whether hedges and trees carry leaves"}, kLeaves, condition.leaves);
  form.choice(
      {"light", kOptional,
       "light by name; with neither this nor a date there is ample light everywhere. \"dusk\" (10 lx) and \"lit "
       "night\" (0.002 lx) light the lamps that burn \"after dark\"; \"bright day\" (50000 lx), \"overcast\" "
       "(10000 lx), \"fog\" (5000 lx) and \"dark night\" (0.001 lx) put them out"},
      kNamedLights, condition.light);
  describe_clock(form, condition.when);
  if (condition.light && condition.when)
    form.fault("light", "allowed only without date and time, from which the light would be worked out");
  describe_sky(form, condition);
  form.choice({"air", "clear", "what the air is like"}, kAirs, condition.air);
  form.number(
      {"visibility_m", kMetres, 1, kOptional, 200000, "meteorological range; the usual one of its air when absent"},
      condition.visibility);
  form.names({"lamps", kOptional, "names of the lamps that burn; each as its `burns` says when absent"},
             condition.lamps);
}

}  // namespace sightfall::file
