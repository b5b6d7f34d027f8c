// SPDX-License-Identifier: GPL-3.0-or-later
// Papers of small jobs: what they tell is what was worked out, whole or stopped, with few needs or many.
#include "papers/papers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <map>

#include "need/cautions.h"
#include "papers/aim_words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/hazard.h"
#include "papers/schedule.h"
#include "papers/test_job.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

std::vector<Cell> row_of(const Schedule& schedule, const std::string& kind) {
  const auto at = std::find_if(schedule.rows.begin(), schedule.rows.end(),
                               [&](const auto& row) { return row.front() == Cell{kind}; });
  EXPECT_NE(at, schedule.rows.end()) << kind;
  return *at;
}

TEST(Papers, TheReportTellsEachNeedAndCameraAsTheyWereJudged) {
  const need::Project project = yard();
  const Job job = job_of(project);
  const std::string words = draw::words_of(report(job));
  EXPECT_THAT(words, HasSubstr(project.needs.front().name));
  EXPECT_THAT(words, HasSubstr("1  " + project.cameras.front().name));
  EXPECT_THAT(words, HasSubstr("1 met, 0 marginal, 0 missed"));
  EXPECT_THAT(words, HasSubstr("price 120"));
}

TEST(Papers, WhoHasThePapersAloneIsNotSentToADocumentOrAProgram) {
  const need::Project project = yard();
  const Job job = job_of(project);
  for (const auto& of : {report, settings_sheets, field_sheet, owner_summary, upkeep, signs}) {
    const std::string words = draw::words_of(of(job));
    EXPECT_THAT(words, Not(HasSubstr("`")));
    EXPECT_THAT(words, Not(HasSubstr(".json")));
  }
}

TEST(Papers, AWalkTestTellsHowASubjectGoesAndHowFastAWheelTurns) {
  need::Project project = yard();
  const auto sheet = [&](need::Subject subject) {
    project.needs.front().subject = subject;
    project.needs.front().facing = need::Facing::kCamera;
    return draw::words_of(field_sheet(job_of(project)));
  };
  EXPECT_THAT(sheet(need::Subject::kFace), HasSubstr("Walk over the mark, towards the camera\nat 1.4 m/s, facing"));
  EXPECT_THAT(sheet(need::Subject::kPerson), HasSubstr("Walk over the mark, across the camera's view\nat 1.4 m/s."));
  EXPECT_THAT(sheet(need::Subject::kVehicle), HasSubstr(" km/h)."));
  project.settings.units = need::Units::kFeet;
  EXPECT_THAT(sheet(need::Subject::kVehicle), HasSubstr(" mph)."));
}

TEST(Papers, TheOwnerReadsWhyANeedIsOpenInPlainWords) {
  const need::Project project = yard();
  Job job = job_of(project);
  need::Verdict& verdict = job.here.check.verdicts.front();
  verdict.answer = need::Answer::kMarginal;
  verdict.limit = detail::Limit::kPixels;
  verdict.settle = "contrast of clothing (0.3 to 0.8): take a test picture";
  EXPECT_THAT(draw::words_of(owner_summary(job)), HasSubstr(": perhaps too far for this camera and lens\n"));
  verdict.settle = need::kWithinSampling;
  EXPECT_THAT(draw::words_of(owner_summary(job)), HasSubstr(": just about as much as is asked\n"));
  verdict.answer = need::Answer::kMissed;
  EXPECT_THAT(draw::words_of(owner_summary(job)), HasSubstr(": too far for this camera and lens\n"));
}

TEST(Papers, WhatWasNoticedBesidesStandsNotAmongWhatComesBeforeDrilling) {
  const need::Project project = yard();
  Job job = job_of(project);
  job.here.check.watches = {{"door", "gate"}};
  job.here.check.without_need = {"lawn"};
  const std::string words = draw::words_of(report(job));
  const size_t drilling = words.find("Before drilling"), besides = words.find("Noticed besides"),
               watch = words.find("the camera \"door\" shows the camera \"gate\""),
               lawn = words.find("nothing is asked of the place \"lawn\"");
  ASSERT_NE(lawn, std::string::npos);
  EXPECT_LT(drilling, besides);
  EXPECT_LT(besides, watch);
  EXPECT_LT(watch, lawn);
}

TEST(Papers, AReportAndAFieldSheetCountTheSame) {
  const need::Project project = yard();
  const Job job = job_of(project);
  for (const auto& of : {report, field_sheet})
    EXPECT_THAT(draw::words_of(of(job)), HasSubstr("noise, air and compression"));
}

TEST(Papers, TheReportTellsHowHighEachWayIsAndWhichCablesLieInIt) {
  EXPECT_THAT(draw::words_of(report(job_of(yard()))), HasSubstr("rafters\ntray\n2.6 m\n8.6 m\nC1\n"));
}

TEST(Papers, TheLawsCapHoldsForTwiceThePixelsToo) {
  need::Project project = yard();
  project.keeping.most = 3.0 * day;
  project.keeping.reason = "an invented law";
  EXPECT_THAT(draw::words_of(report(job_of(project))), HasSubstr("3.0\n3.0\n"));
}

TEST(Papers, TheOwnersSummaryIsOnePageHoweverMuchIsAskedFor) {
  need::Project project = yard();
  Job job = job_of(project);
  for (int i = 0; i < 90; ++i) {
    need::Need more = project.needs.front();
    need::Verdict verdict = job.here.check.verdicts.front();
    more.name = verdict.need = "another person that somebody asked for, number " + std::to_string(i);
    project.needs.push_back(more);
    job.here.check.verdicts.push_back(verdict);
  }
  const draw::Document summary = owner_summary(job);
  EXPECT_EQ(draw::pages_of(summary, draw::PaperSize::kA4), 1);
  EXPECT_THAT(draw::words_of(summary), HasSubstr("more, which the report tells"));
}

TEST(Papers, OptionsStandSideBySideWithWhatAMetNeedCosts) {
  const need::Project project = yard();
  need::Project turned = yard();
  turned.name = "Turned away";
  turned.cameras.front().heading = 180 * deg;
  const std::string words = draw::words_of(options(job_of(project, &turned)));
  EXPECT_THAT(words, HasSubstr("A: Wired shed. B: Turned away."));
  EXPECT_THAT(words, HasSubstr("MISSED, 0 %"));
  EXPECT_THAT(words, HasSubstr("price for each need met\nat least 120\n-"));
}

TEST(Papers, OptionsCountWhatCarriesTheCameras) {
  need::Project project = yard();
  for (site::Feed& feed : project.site.feeds) {
    feed.price = 10;
    if (feed.disks) feed.disks->price = 30;
  }
  for (site::Run& run : project.site.runs) run.metre_price = 0;
  need::Project other = project;
  other.site.feeds.front().price.reset();
  const std::string words = draw::words_of(options(job_of(project, &other)));
  // Five feeds of 10 and a disk of 30; the camera's 120 beside them, for the one need that is met.
  EXPECT_THAT(words, HasSubstr("price of feeds, disks and cable\n80\n70 and 1 without a price"));
  EXPECT_THAT(words, HasSubstr("price for each need met\n200\nat least 190"));
}

TEST(Papers, LampsThatAreCountedOnAreInTheMaterialsAndOnThePlan) {
  need::Project project = yard();
  const auto plan_words = [](const Job& job) {
    return draw::site_sheet(plan_of(job), draw::points_of(draw::PaperSize::kA4)).words;
  };
  project.needs.front().conditions = {"night"};
  const site::Mount& mount = project.site.mounts.front();
  site::Lamp lamp{"yard lamp", mount.at, mount.height};
  lamp.heading = project.cameras.front().heading;
  lamp.tilt = project.cameras.front().tilt;
  lamp.lumens = 20000 * lm;
  lamp.burns = site::Burns::kAlways;
  project.site.lamps = {lamp};
  const Job job = job_of(project);
  EXPECT_THAT(plan_words(job), ::testing::Contains("lamp there, counted on"));
  const auto row = row_of(materials_of(job), "lamp, there already");
  EXPECT_EQ(row[1], Cell{"yard lamp: LED, 20000 lm"});
  EXPECT_EQ(row[7], Cell{"relied on by: " + project.needs.front().name});
  project.needs.front().conditions = {"day"};
  const Job by_day = job_of(project);
  EXPECT_THAT(plan_words(by_day), Not(::testing::Contains("lamp there, counted on")));
  EXPECT_THAT(plan_words(by_day), ::testing::Contains("lamp there"));
}

TEST(Papers, WhatIsSetDownToAimByIsFoundByTwoTapes) {
  const need::Project project = yard();
  const Job job = job_of(project);
  const site::Scene in_leaf{project.site, site::Leaves::kOn};
  const CameraPart& part = job.cameras.front();
  need::AimPoint point{need::kSetDown, {13, 4, 0}, {}, {}, 0.5, 0.5, true};
  EXPECT_THAT(aim_point_words(job, part, point, in_leaf), HasSubstr("m from shed, "));
  point.name = need::kPlumb, point.set_down = false;
  EXPECT_THAT(aim_point_words(job, part, point, in_leaf), HasSubstr("the picture's top looks towards 90.0 deg"));
  point.name = "post";
  EXPECT_EQ(aim_point_words(job, part, point, in_leaf), "post");
}

TEST(Papers, HeightsAreOfLensesAndTheFieldSheetHasRoomForTheHoles) {
  const need::Project project = yard();
  const Job job = job_of(project);
  EXPECT_THAT(draw::words_of(report(job)), HasSubstr(kHolesAside));
  const std::string words = draw::words_of(field_sheet(job));
  EXPECT_THAT(words, HasSubstr(kHolesAside));
  EXPECT_THAT(words, HasSubstr(held_by_words(job, project.site.mounts.front())));
  EXPECT_THAT(words, HasSubstr(north_words(project)));
}

TEST(Papers, ACamerasPageTellsWhoseLightItCountsOn) {
  need::Project project = yard();
  EXPECT_THAT(draw::words_of(report(job_of(project))), Not(HasSubstr("Whose light")));
  project.needs.front().conditions = {"night"};
  const std::string words = draw::words_of(report(job_of(project)));
  EXPECT_THAT(words, HasSubstr("its own infrared 98 %, all round (sky, ground) 2 %"));
}

TEST(Papers, ACamerasPageTellsWhatItShowsBestThoughItIsNotTheWorst) {
  const need::Project project = yard();
  Job job = job_of(project);
  need::Verdict& verdict = job.here.check.verdicts.front();
  verdict.worst->camera = "another";
  verdict.conditions = {{"day", 0.75, project.cameras.front().name, {}}, {"night", 0, "another", {}}};
  EXPECT_THAT(draw::words_of(report(job)), HasSubstr(project.needs.front().name + ": day (75 %)."));
  verdict.conditions.front().camera = "another";
  EXPECT_THAT(draw::words_of(report(job)), HasSubstr("No need's worst place is this camera's to show"));
}

TEST(Papers, PicturesAreOfPlacesThatAreAskedForInTheirLight) {
  need::Project project = yard();
  need::Need at_night = project.needs.front();
  at_night.name = "person after dark";
  at_night.conditions = {"night"};
  project.needs.push_back(at_night);
  const site::Scene scene{project.site, site::Leaves::kOff};
  const Job job = job_of(project);
  const Shown day = place_to_show(job.here, 0, scene, false), night = place_to_show(job.here, 0, scene, true);
  EXPECT_EQ(day.need, project.needs.front().name);
  EXPECT_EQ(day.condition, "day");
  EXPECT_EQ(night.need, "person after dark");
  EXPECT_EQ(night.condition, "night");
  EXPECT_EQ(night.at, geom::plan(job.here.check.verdicts.back().worst->at_site));
  project.needs.pop_back();
  const Shown middle = place_to_show(job_of(project).here, 0, scene, true);
  EXPECT_EQ(middle.need, "");
  EXPECT_TRUE(middle.night);
}

TEST(Papers, DuskStandsForTheNightOnlyWhereNothingIsDarker) {
  need::Project project = yard();
  site::Condition dusk;
  dusk.name = "dusk";
  dusk.light = site::NamedLight::kDusk;
  project.conditions.insert(project.conditions.begin() + 1, dusk);
  project.needs.front().conditions = {"day", "dusk"};
  const site::Scene scene{project.site, site::Leaves::kOff};
  EXPECT_EQ(place_to_show(job_of(project).here, 0, scene, true).condition, "night");
  project.conditions.pop_back();
  const Shown shown = place_to_show(job_of(project).here, 0, scene, true);
  EXPECT_EQ(shown.condition, loads::by_night(project, dusk) ? "dusk" : "day");
}

TEST(Papers, WarningsAreSaidOnce) {
  need::Project project = yard();
  project.site.mounts.front().access = "ladder, keep sparks away from the fuel";
  camera::Camera second = project.cameras.front();
  second.name = "second";
  project.cameras.push_back(second);
  const Job job = job_of(project);
  const auto times = [](const std::string& text, const std::string& what) {
    int count = 0;
    for (size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
    return count;
  };
  const std::string told = draw::words_of(report(job)), field = draw::words_of(field_sheet(job));
  for (const char* once : {kHolesAside, need::kHeightKills, "telephone in the hand", loads::kTailOutdoors})
    EXPECT_EQ(times(told, once), 1) << once;
  EXPECT_EQ(times(field, kHazardAside), 1);
  EXPECT_EQ(times(field, kHazardHere), 2);  // at each of the two cameras
}

TEST(Papers, EveryPictureIsToldToWhoHearsThePages) {
  const need::Project project = yard();
  const Job job = job_of(project);
  int pictures = 0;
  for (const draw::Document& document : {report(job), field_sheet(job), signs(job)})
    for (const draw::Block& block : document.blocks)
      if (const auto* figures = std::get_if<draw::Figures>(&block))
        for (const draw::Figure& one : figures->row) {
          EXPECT_NE(one.shows, "");
          ++pictures;
        }
  EXPECT_GE(pictures, 3);  // plan, reach, sign
}

TEST(Papers, NobodyWhoHoldsThemIsSentToADocument) {
  const need::Project project = yard();
  const Job job = job_of(project, &project);
  for (const draw::Document& document :
       {report(job), owner_summary(job), settings_sheets(job), field_sheet(job), upkeep(job), signs(job), options(job)})
    EXPECT_THAT(draw::words_of(document), Not(HasSubstr("document"))) << document.facts.subject;
  for (const Schedule& schedule : schedules(job))
    EXPECT_THAT(csv_of(schedule), Not(HasSubstr("document"))) << schedule.name;
}

std::map<std::string, std::string> written(const Job& job, const Progress& progress = {}) {
  std::map<std::string, std::string> files;
  const auto done = write_papers(
      job,
      [&](const std::string& name, std::string_view bytes) -> Result<void> {
        files[name] = std::string(bytes);
        return {};
      },
      progress);
  EXPECT_TRUE(done);
  return files;
}

TEST(Papers, AreTheSameEachTime) {
  const need::Project project = yard();
  EXPECT_EQ(written(job_of(project)), written(job_of(project)));
}

TEST(Papers, StoppedTheyAreWholeAsFarAsTheyGo) {
  const need::Project project = yard();
  const Job job = job_of(project);
  const auto all = written(job);
  std::atomic<bool> stop = false;
  Progress progress;
  progress.stop = &stop;
  progress.tell = [&](double, std::string_view) { stop = true; };
  const auto files = written(job, progress);
  EXPECT_THAT(files, Not(IsEmpty()));
  for (const auto& [name, bytes] : files) EXPECT_EQ(bytes, all.at(name)) << name;
  EXPECT_THAT(written(job, progress), IsEmpty());  // nothing was begun
}

TEST(Papers, AnEmptySiteHasPapers) {
  need::Project project;
  project.name = "Nothing yet";
  project.settings.typical = file::default_typical();
  project.conditions = {{"day", site::Leaves::kOn}};
  EXPECT_THAT(written(job_of(project)), SizeIs(paper_names(false).size()));
}

TEST(Papers, AFailedWriteIsTold) {
  const need::Project project = yard();
  const auto done = write_papers(job_of(project), [](const std::string&, std::string_view) -> Result<void> {
    return failure(ErrorKind::kWrite, "no room");
  });
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().text, "no room");
}

TEST(Papers, ANetworkThatIsTooSmallIsRefused) {
  const need::Project project = yard();
  Asked asked = quick();
  asked.network = {0x0A000000, 29};
  EXPECT_FALSE(gathered(project, nullptr, asked));
}

TEST(Papers, TextsWithLettersThatNoTypefaceHasAreTold) {
  const std::string lacking = "\xF4\x8F\xBF\xBD";  // U+10FFFD, for private use
  const need::Project plain = yard();
  EXPECT_THAT(job_of(plain).without_shape, SizeIs(0));
  using Change = std::function<void(need::Project&)>;
  const std::vector<Change> changes{[&](need::Project& one) { one.needs.front().name = lacking; },
                                    [&](need::Project& one) {
                                      one.site.ways.push_back({lacking, site::WayKind::kWall, {{0, 0}, {1, 0}}});
                                    },
                                    [&](need::Project& one) {
                                      one.site.veils.emplace_back();
                                      one.site.veils.back().name = lacking;
                                      one.site.veils.back().line = {{90, 90}, {91, 90}};
                                    },
                                    [&](need::Project& one) { one.keeping.reason = lacking; },
                                    [&](need::Project& one) { one.settings.currency = lacking; },
                                    [&](need::Project& one) { one.site.mounts.front().surface = lacking; },
                                    [&](need::Project& one) { one.site.mounts.front().access = lacking; },
                                    [&](need::Project& one) { one.catalogue.front().ingress = lacking; }};
  for (size_t i = 0; i < changes.size(); ++i) {
    need::Project project = yard();
    changes[i](project);
    EXPECT_THAT(job_of(project).without_shape, ::testing::ElementsAre(lacking)) << i;
  }
  Asked asked = quick();
  asked.by = lacking;
  EXPECT_THAT(gathered(plain, nullptr, asked)->without_shape, ::testing::ElementsAre(lacking));
}

}  // namespace
}  // namespace sightfall::papers
