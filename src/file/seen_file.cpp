// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/seen_file.h"

#include <fmt/format.h>

#include <array>

#include "file/atomic.h"
#include "file/describe.h"
#include "file/manual.h"
#include "file/project.h"
#include "file/reader.h"
#include "file/schema.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 3> kSeenSubjects{"face", "plate", "grey card"};

struct SeenFile {
  std::vector<card::Observation> observations;
};

void describe(Form& form, SeenFile& file) {
  form.list({"observations", kRequired, "each of something that stands still on the camera's axis"}, 1, 200,
            file.observations);
}

void check_observation(const card::Observation& seen, const Spot& spot, Report& report) {
  const auto readable = [&](const char* field) { return report.clean(spot.path, field); };
  if (!readable("")) return;
  if (!seen.level && !seen.noise && !seen.read && readable("level") && readable("noise") && readable("read"))
    report.add(ErrorKind::kField, spot.at("level"), "missing; needed is at least one of level, noise and read");
  if (seen.read && seen.subject == card::SeenSubject::kGreyCard && readable("subject"))
    report.add(ErrorKind::kField, spot.at("read"), R"(allowed only with subject "face" or "plate")");
  if (seen.shutter.has_value() != seen.gain.has_value() && readable("shutter_s") && readable("gain_db"))
    report.add(ErrorKind::kField, spot.at(seen.shutter ? "gain_db" : "shutter_s"),
               "missing; shutter_s and gain_db are told together or not at all");
}

}  // namespace

void describe(Form& form, card::Observation& seen) {
  form.number({"distance_m", kMetres, 0.5, kRequired, 2000, "from the camera"}, seen.distance);
  form.choice({"subject", "grey card", "what was looked at; the card is one of 18 %"}, kSeenSubjects, seen.subject);
  form.number({"lux", "lx", 1e-4, kOptional, 1e5,
               "of a white lamp on the subject, own infrared off; without it: by own infrared in the dark"},
              seen.lux);
  form.number({"shutter_s", kSeconds, 1e-7, kOptional, 60, "with gain_db; without them: automatic exposure"},
              seen.shutter);
  form.number({"gain_db", "dB", 0, kOptional, 100, "over the least"}, seen.gain);
  form.number({"level", "", 0, kOptional, 1, "mean of the picture's values on it over the largest value"}, seen.level);
  form.number({"noise", "", 1e-5, kOptional, 1, "standard deviation of those values, the same"}, seen.noise);
  form.flag({"read", kOptional, "whether the face or the plate was made out"}, seen.read);
  form.number(
      {"needed_px_per_m", kPixelsPerMetre, 1, 125, 5000, "delivered detail at which one observer of two makes it out"},
      seen.needed);
}

Checked<std::vector<card::Observation>> parse_observations(std::string_view text, const std::string& file_name) {
  const Result<Value> value = parse_json(text, file_name);
  if (!value) return only(value.error());
  Report report(file_name);
  SeenFile file;
  Reader(*value, report).read(file);
  for (size_t i = 0; i < file.observations.size(); ++i)
    check_observation(file.observations[i], item_spot("observations", i, ""), report);
  if (!report.empty()) return tl::make_unexpected(report.take());
  return file.observations;
}

Checked<std::vector<card::Observation>> load_observations(const std::string& path) {
  const Result<std::string> text = read_whole(path, kLargestDocument);
  if (!text) return only(text.error());
  return parse_observations(*text, path);
}

std::string seen_schema() { return Schema::of(SeenFile{}, "Sightfall observations"); }

std::string seen_manual() { return Manual::of(SeenFile{}, "Observations"); }

}  // namespace sightfall::file
