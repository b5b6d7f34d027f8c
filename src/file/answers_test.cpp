// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/answers.h"

#include <gtest/gtest.h>

#include <limits>

#include "file/json.h"

namespace sightfall::file {
namespace {

using namespace units;

/// The value at a path of fields and places in lists, such as `needs 0 worst at 2`.
const Value& at(const Value& root, std::initializer_list<const char*> path) {
  static const Value kNothing{"there is no such value"};
  const Value* value = &root;
  for (const std::string step : path) {
    const Value* next = nullptr;
    if (const auto* object = value->as<Object>()) {
      for (const Member& member : *object)
        if (member.name == step) next = &member.value;
    } else if (const auto* list = value->as<List>()) {
      const size_t index = std::stoul(step);
      if (index < list->size()) next = &(*list)[index];
    }
    if (next == nullptr) return kNothing;
    value = next;
  }
  return *value;
}

Value parsed(const std::string& text) {
  const Result<Value> value = parse_json(text, "answer");
  EXPECT_TRUE(value) << (value ? "" : value.error().text);
  return value ? *value : Value{};
}

camera::Camera till() {
  camera::Camera camera;
  camera.name = "till", camera.sheet = "small", camera.mount = "shelf";
  return camera;
}

need::Verdict missed() {
  need::Verdict verdict;
  verdict.need = "face at the till";
  verdict.share = {0.1, 1.0 / 3, 0.5};
  verdict.required_share = 0.95;
  verdict.required = 250.0 * px / m;
  verdict.limit = detail::Limit::kFocus;
  verdict.worst = need::WorstPlace{
      {1.23456, 2, 3},      "day", "till", 400.0 * px / m, {90.0 * px / m, 100.004 * px / m, 110.0 * px / m},
      detail::Limit::kFocus};
  camera::Camera changed = till();
  changed.focus = 2 * m;
  verdict.remedy =
      need::Remedy{true, "till", "till: focus at 2 m", 1, need::Answer::kMet, {"person in the yard"}, changed, 0.5 * m};
  verdict.samples = 64;
  verdict.conditions = {{"day", 1.0 / 3}};
  return verdict;
}

Value check_answer(const need::Verdict& verdict) {
  need::Project project;
  project.name = "Yard";
  project.settings.levels.name = "2025";
  project.cameras = {till()};
  project.site.mounts.emplace_back();
  project.site.mounts.front().name = "shelf";
  project.site.mounts.front().height = 2 * m;
  need::CheckResult result;
  result.verdicts = {verdict};
  result.stopped = true;
  return parsed(answer_text(project, result));
}

TEST(Answers, ACheckTellsWhatANeedCameTo) {
  const Value answer = check_answer(missed());
  EXPECT_EQ(at(answer, {"project"}), Value("Yard"));
  EXPECT_EQ(at(answer, {"stopped"}), Value(true));
  EXPECT_EQ(at(answer, {"needs", "0", "name"}), Value("face at the till"));
  EXPECT_EQ(at(answer, {"needs", "0", "verdict"}), Value("missed"));
  EXPECT_EQ(at(answer, {"needs", "0", "required_share"}), Value(0.95));
  EXPECT_EQ(at(answer, {"needs", "0", "limit"}), Value("focus"));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "text"}), Value("till: focus at 2 m"));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "spoils", "0"}), Value("person in the yard"));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "0", "at"}), Value(List{"cameras", "till"}));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "0", "was", "focus_m"}), Value("there is no such value"));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "0", "now", "focus_m"}), Value(2));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "1", "at"}), Value(List{"site", "mounts", "shelf"}));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "1", "was", "height_m"}), Value(2));
  EXPECT_EQ(at(answer, {"needs", "0", "remedy", "changes", "1", "now", "height_m"}), Value(2.5));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "camera"}), Value("till"));
}

TEST(Answers, NumbersAreRoundedToWhatTheyCanMean) {
  const Value answer = check_answer(missed());
  EXPECT_EQ(at(answer, {"needs", "0", "share"}), Value(0.3333));
  EXPECT_EQ(at(answer, {"needs", "0", "share_range", "high"}), Value(0.5));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "at", "0"}), Value(1.235));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "delivered_px_per_m", "nominal"}), Value(100));
}

TEST(Answers, WhatIsNotThereIsNull) {
  need::Verdict met = missed();
  met.answer = need::Answer::kMet;
  met.limit = detail::Limit::kNone;
  met.worst.reset();
  met.remedy.reset();
  const Value answer = check_answer(met);
  for (const char* field : {"limit", "worst", "remedy", "settle"})
    EXPECT_TRUE(at(answer, {"needs", "0", field}).null()) << field;
}

TEST(Answers, FramesOfAPassageAreToldToATenthBelow) {
  EXPECT_TRUE(at(check_answer(missed()), {"needs", "0", "worst", "frames"}).null());
  need::Verdict passage = missed();
  passage.worst->frames = need::PassageFrames{{0, 2.99, 45.5}, 3};
  const Value answer = check_answer(passage);
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "frames", "asked"}), Value(3));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "frames", "predicted", "low"}), Value(0));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "frames", "predicted", "nominal"}), Value(2.9));
  EXPECT_EQ(at(answer, {"needs", "0", "worst", "frames", "predicted", "high"}), Value(45));
}

TEST(Answers, APlaceThatNoCameraSeesNamesNone) {
  need::Verdict unseen = missed();
  unseen.worst->camera.clear();
  EXPECT_TRUE(at(check_answer(unseen), {"needs", "0", "worst", "camera"}).null());
}

card::RangeCard small_card() {
  card::RangeCard card;
  card.camera = "a sheet";
  card.focal = 12.0 * mm;
  card.focus = 35.0 * m;
  card.f_number = 1.6;
  card.horizontal_view = 23.0 * deg;
  card.vertical_view = 13.1 * deg;
  card.marks = {{30.0 * m,
                 12.2 * m,
                 6.9 * m,
                 315.0 * px / m,
                 {.delivered = {200.0 * px / m, 240.0 * px / m, 300.0 * px / m},
                  .levels = {"perceive", ""},
                  .limit = detail::Limit::kPixels,
                  .noise_ratio = 40,
                  .shutter = 0.0001 * s},
                 {.delivered = {40.0 * px / m, 80.0 * px / m, 120.0 * px / m},
                  .levels = {"", ""},
                  .limit = detail::Limit::kNoise,
                  .noise_ratio = 4.2,
                  .shutter = 0.04 * s,
                  .gain = 24,
                  .power = 0.5}}};
  card.one_pixel = {23.0 * m, 70.0 * m};
  card.seventy_percent = {16.0 * m, Length{std::numeric_limits<double>::infinity()}};
  card.reach = {{"2025", "perceive", 0.1 * m, 56.0 * m}, {"2014", "inspect", std::nullopt, std::nullopt}};
  card.reach_night = {{"2025", "perceive", 1.0 * m, 20.0 * m, {{5.0 * m, 12.0 * m}}},
                      {"2014", "inspect", std::nullopt, std::nullopt}};
  card.infrared = card.monochrome = card.glows = true;
  card.clipping = {.fixed = 9.0 * m, .ground_reflectance = 0.15, .largest_gain = 24};
  card.shutters = {{"walker", Speed{1.4}, 75.0 * m, 0.0057 * s, 0.5, 2.3}};
  card.eye_distance = 0.47 * m;
  card.claims = {{"angle of view", "23 degrees", "", "", card::Holds::kUnknown}};
  return card;
}

Value card_answer(const card::RangeCard& card, std::optional<Length> height = {}) {
  card::CardRequest request;
  request.tables = {{"2025", "", {}}, {"2014", "", {}}};
  request.height = height;
  return parsed(answer_text(request, card));
}

TEST(Answers, ACardTellsItsMarks) {
  const Value answer = card_answer(small_card());
  EXPECT_EQ(at(answer, {"marks", "0", "distance_m"}), Value(30));
  EXPECT_EQ(at(answer, {"marks", "0", "width_m"}), Value(12.2));
  EXPECT_EQ(at(answer, {"marks", "0", "density_px_per_m"}), Value(315));
  EXPECT_EQ(at(answer, {"marks", "0", "day", "delivered_px_per_m"}), Value(240));
  EXPECT_EQ(at(answer, {"marks", "0", "day", "level"}), Value("perceive"));
  EXPECT_EQ(at(answer, {"marks", "0", "day", "levels", "2025"}), Value("perceive"));
  EXPECT_TRUE(at(answer, {"marks", "0", "day", "levels", "2014"}).null());
  EXPECT_EQ(at(answer, {"marks", "0", "day", "limit"}), Value("pixels"));
  EXPECT_EQ(at(answer, {"marks", "0", "night", "limit"}), Value("noise"));
  EXPECT_EQ(at(answer, {"marks", "0", "night", "shutter_s"}), Value(0.04));
  EXPECT_EQ(at(answer, {"reach", "night", "perceive", "1"}), Value(20));
  EXPECT_EQ(at(answer, {"clipping", "fixed_m"}), Value(9));
  EXPECT_TRUE(at(answer, {"clipping", "adaptive_m"}).null());
  EXPECT_EQ(at(answer, {"eye_distance_m"}), Value(0.47));
}

TEST(Answers, ACardTellsFocusAndReachWithNullForInfinityAndNowhere) {
  const Value answer = card_answer(small_card());
  EXPECT_EQ(at(answer, {"focus", "near_m"}), Value(16));
  EXPECT_TRUE(at(answer, {"focus", "far_m"}).null());
  EXPECT_EQ(at(answer, {"focus", "one_pixel", "far_m"}), Value(70));
  EXPECT_EQ(at(answer, {"reach", "day", "perceive", "1"}), Value(56));
  EXPECT_TRUE(at(answer, {"reach", "day", "inspect"}).null());
}

TEST(Answers, ACardTellsWhereALevelIsLostBetween) {
  const Value gaps = at(card_answer(small_card()), {"reach", "gaps"});
  EXPECT_EQ(at(gaps, {"night", "perceive"}), Value(List{List{5, 12}}));
  EXPECT_EQ(at(gaps, {"night", "inspect"}), Value(List{}));
  EXPECT_EQ(at(gaps, {"day", "perceive"}), Value(List{}));
}

TEST(Answers, ACardTellsItsClaims) {
  const Value answer = card_answer(small_card());
  EXPECT_EQ(at(answer, {"claims", "0", "claim"}), Value("angle of view"));
  EXPECT_EQ(at(answer, {"claims", "0", "stated"}), Value("23 degrees"));
  EXPECT_TRUE(at(answer, {"claims", "0", "computed"}).null());
  EXPECT_EQ(at(answer, {"claims", "0", "holds"}), Value("unknown"));
}

TEST(Answers, ACardTellsWhatObservationsNarrowed) {
  card::CardRequest request;
  request.tables = {{"2025", "", {}}, {"2014", "", {}}};
  card::Calibration calibration;
  calibration.observations = 3;
  calibration.parameters = {
      {"read_noise", "e", {}, {1.2, 2.5, 5}, {2.4667, 4.2999, 7.4841}, true},
      {"infrared_efficiency", "1", {{"infrared_draw", "W", 10.5824}}, {0.2, 0.35, 0.7}, {}, true},
      {"full_well", "e/um2", {{"not told either", "1", 1}}, {1300, 2000, 3000}, {9, 9, 9}, false}};
  const Value told = at(parsed(answer_text(request, small_card(), calibration)), {"calibration"});
  EXPECT_EQ(at(told, {"observations"}), Value(3));
  EXPECT_EQ(at(told, {"inputs", "0", "name"}), Value("read_noise"));
  EXPECT_EQ(at(told, {"inputs", "0", "unit"}), Value("e"));
  EXPECT_EQ(at(told, {"inputs", "0", "before", "low"}), Value(1.2));
  EXPECT_EQ(at(told, {"inputs", "0", "after", "nominal"}), Value(4.3));
  EXPECT_EQ(at(told, {"inputs", "0", "after", "high"}), Value(7.484));
  EXPECT_EQ(at(told, {"inputs", "1", "together_with", "0", "name"}), Value("infrared_draw"));
  EXPECT_EQ(at(told, {"inputs", "1", "together_with", "0", "value"}), Value(10.58));
  EXPECT_EQ(at(told, {"inputs", "2", "before", "high"}), Value(3000));
  EXPECT_TRUE(at(told, {"inputs", "2", "after"}).null());
  EXPECT_EQ(at(told, {"inputs", "2", "together_with"}), Value(List{}));
  EXPECT_TRUE(at(card_answer(small_card()), {"calibration"}).null());
}

TEST(Answers, TheTiltBelongsToAMountHeight) {
  EXPECT_TRUE(at(card_answer(small_card()), {"tilt_deg"}).null());
  EXPECT_TRUE(at(card_answer(small_card()), {"mount_height_m"}).null());
  EXPECT_EQ(at(card_answer(small_card(), 4.0 * m), {"mount_height_m"}), Value(4));
  EXPECT_EQ(at(card_answer(small_card(), 4.0 * m), {"tilt_deg"}), Value(0));
}

}  // namespace
}  // namespace sightfall::file
