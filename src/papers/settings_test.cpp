// SPDX-License-Identifier: GPL-3.0-or-later
// The settings of cameras and devices, and who says each.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/documents.h"
#include "papers/materials.h"
#include "papers/run_words.h"
#include "papers/test_job.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(Settings, ASettingSaysWhoSaysIt) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  project.catalogue.front().sensor.reset();
  EXPECT_THAT(words(), HasSubstr(" dB\nassumed: its sheet does not say"));
  project.catalogue.front().sensor.emplace().largest_gain = 30;
  EXPECT_THAT(words(), HasSubstr("30 dB\nby its sheet"));
  project.cameras.front().largest_gain = 18;
  EXPECT_THAT(words(), HasSubstr("18 dB\nset for this job"));
}

TEST(Settings, SettingsHaveEachCameraWithItsAddress) {
  const need::Project project = yard();
  const std::string words = draw::words_of(settings_sheets(job_of(project)));
  EXPECT_THAT(words, HasSubstr("192.168.50.11 mask 255.255.255.0"));
  EXPECT_THAT(words, HasSubstr("6 Mbit/s"));
}

TEST(Settings, AnIrisThatMovesByItselfIsToldAsItIsCounted) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(hung(project))); };
  EXPECT_THAT(words(), Not(HasSubstr("\niris\n")));
  project.catalogue.front().iris = camera::Iris::kAutomatic;
  project.catalogue.front().smallest_iris = 8;
  EXPECT_THAT(words(), HasSubstr("iris\nautomatic, from f/1.6 by night to f/8 in bright light\nas the verdicts count"));
  project.catalogue.front().smallest_iris.reset();
  EXPECT_THAT(words(), HasSubstr("its smallest is assumed"));
  project.cameras.front().f_number = 4;
  EXPECT_THAT(words(), HasSubstr("iris\nf/4\nset for this job"));
}

TEST(Settings, ACapOnKeepingHoldsForTheCardToo) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(hung(project))); };
  EXPECT_THAT(words(), HasSubstr("over the oldest, and deleted after 30 days; a camera that cannot delete by age"));
  project.keeping.most.reset();
  EXPECT_THAT(words(), Not(HasSubstr("deleted after 30 days")));
}

TEST(Settings, HoursOfRecordingHaveToCoverWhenItsNeedsAreAsked) {
  need::Project project = yard();
  project.needs.front().conditions = {"night"};
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  EXPECT_THAT(words(), Not(HasSubstr("its needs are asked for in")));
  project.cameras.front().recording.mode = camera::RecordingMode::kHours;
  project.cameras.front().recording.hours_a_day = 12;
  EXPECT_THAT(words(), HasSubstr("12 h a day: from ______ to ______\nits needs are asked for in: night; the hours"));
}

TEST(Settings, PortsComeInTheirOrder) {
  const need::Project project = nursery();
  const std::string words = draw::words_of(settings_sheets(hung(project)));
  const size_t switched = words.find("\nshop switch\n");
  ASSERT_NE(switched, std::string::npos);
  size_t last = switched;
  for (const char* port : {"\nport 1\n", "\nport 2\n", "\nport 3\n", "\nport 4\n"}) {
    const size_t at = words.find(port, switched);
    ASSERT_NE(at, std::string::npos) << port;
    EXPECT_GT(at, last);
    last = at;
  }
}

TEST(Settings, ADeviceThatNoCableReachesIsToldSo) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  const auto has_row = [&] {
    const auto rows = materials_of(job_of(project)).rows;
    return std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row[1] == Cell{"to router"}; });
  };
  EXPECT_THAT(words(), HasSubstr("its cable\n" + std::string(kNoRun)));
  EXPECT_TRUE(has_row());
  project.site.runs.push_back(
      {.name = "N2", .from = "router", .port = 1, .to = "switch", .cable = "Cat6 patch cord, stranded"});
  EXPECT_THAT(words(), Not(HasSubstr(kNoRun)));
  EXPECT_FALSE(has_row());
}

TEST(Settings, ACamerasCardAndWhatItsSheetLeavesOutAreSettingsToo) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  EXPECT_THAT(words(), HasSubstr("card in it\n128 GB: recording to it on"));
  EXPECT_THAT(words(), HasSubstr("wide dynamic range\noff\ncounted without"));
  project.cameras.front().recording.card.reset();
  project.catalogue.front().wide_dynamic_range = true;
  EXPECT_THAT(words(), Not(HasSubstr("card in it")));
  EXPECT_THAT(words(), HasSubstr("wide dynamic range\non\ncounted with"));
}

TEST(Settings, ACamerasSettingsKeepStrangersOutAndHaveItsLens) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  EXPECT_THAT(words(), HasSubstr("gateway\nnone\ncameras need no way out"));
  EXPECT_THAT(words(), HasSubstr("second stream\noff"));
  EXPECT_THAT(words(), HasSubstr("focal length\n"));
  EXPECT_THAT(words(), Not(HasSubstr("dewarp")));
  EXPECT_THAT(words(), Not(HasSubstr("rate without a ceiling")));
  project.catalogue.front().projection = camera::Projection::kFisheye;
  project.catalogue.front().stream.reset();
  project.cameras.front().stream.reset();
  EXPECT_THAT(words(), HasSubstr("dewarp"));
  EXPECT_THAT(words(), HasSubstr("agree one before hand-over"));
  EXPECT_THAT(words(), HasSubstr("its link carries\nat most 100 Mbit/s"));
}

TEST(Settings, SettingsHaveTheDevicesBetweenCamerasAndViewers) {
  const need::Project project = yard();
  const Job job = job_of(project);
  const std::string words = draw::words_of(settings_sheets(job));
  for (const site::Feed& feed : project.site.feeds)
    if (!address_of(job, feed.name).empty()) {
      EXPECT_THAT(words, HasSubstr("name\n" + feed.name + "\n"));
    }
  EXPECT_THAT(words, HasSubstr("records " + project.cameras.front().name));
  EXPECT_THAT(words, HasSubstr("network apart (VLAN), number\n" + or_line("")));
}

TEST(Settings, ARecorderOnTwoNetworksTellsThemApart) {
  need::Project project = yard();
  EXPECT_THAT(draw::words_of(settings_sheets(job_of(project))), Not(HasSubstr("forwards nothing")));
  for (site::Feed& feed : project.site.feeds)
    if (feed.name == "recorder") feed.ports.count = 2;
  project.site.runs.push_back(
      {.name = "N2", .from = "router", .port = 1, .to = "recorder", .cable = "Cat6 patch cord, stranded"});
  const Job job = job_of(project);
  const std::string words = draw::words_of(settings_sheets(job));
  EXPECT_THAT(words, HasSubstr("network address, cameras' network\n192.168.50.1 mask 255.255.255.0"));
  EXPECT_THAT(words, HasSubstr("network address, house's network\n" + or_line("")));
  EXPECT_THAT(words, HasSubstr("between its two networks\nforwards nothing: routing and bridging off"));
  EXPECT_THAT(words, HasSubstr("port 1\nN1 to switch\nthe cameras' network"));
  EXPECT_THAT(words, HasSubstr("port 2 (proposed)\nN2 from router\nthe house's network"));
  EXPECT_THAT(words, HasSubstr("gateway\n" + or_line("") + " (router)"));
  EXPECT_THAT(words, HasSubstr("house\ncameras\nnothing\ntwo networks: \"recorder\" forwards nothing between them"));
  EXPECT_THAT(words, Not(HasSubstr("network apart (VLAN)")));
  EXPECT_THAT(words, HasSubstr("and not within the cameras' network"));
  EXPECT_THAT(csv_of(ports_of(job)), HasSubstr("from router,,,met,the house's network"));
}

TEST(Settings, TheHousesNetworkIsToldWhereItIsStated) {
  need::Project project = yard();
  for (site::Feed& feed : project.site.feeds)
    if (feed.name == "recorder") feed.ports.count = 2;
  project.site.runs.push_back(
      {.name = "N2", .from = "router", .port = 1, .to = "recorder", .cable = "Cat6 patch cord, stranded"});
  project.settings.house_network = "192.168.178.0/24";
  const std::string words = draw::words_of(settings_sheets(job_of(project)));
  EXPECT_THAT(words, HasSubstr("The house's network is 192.168.178.0/24, mask 255.255.255.0."));
  EXPECT_THAT(words, Not(HasSubstr("and not within the cameras' network")));
  EXPECT_THAT(words, HasSubstr("network address, house's network\n" + or_line("") +
                               " mask 255.255.255.0\nwithin 192.168.178.0/24: whoever looks after it gives it"));
  project.settings.house_network = "192.168.0.0/16";
  EXPECT_FALSE(gathered(project, nullptr, quick()));
}

TEST(Settings, ASiteOfCamerasAloneHasNoPagesOfDevices) {
  need::Project project = yard();
  project.site.feeds.clear();
  project.site.runs.clear();
  EXPECT_THAT(draw::words_of(settings_sheets(job_of(project))), Not(HasSubstr("Router, recorder, switches")));
}

TEST(Settings, AShutterHeldShortGoesBeforeBands) {
  need::Project project = yard();
  const auto words = [&] { return draw::words_of(settings_sheets(job_of(project))); };
  EXPECT_THAT(words(), Not(HasSubstr("bands are the price")));
  project.cameras.front().slowest_shutter = 0.002 * s;
  EXPECT_THAT(words(), HasSubstr("for at 1/100 s what moves is not sharp enough"));
}

}  // namespace
}  // namespace sightfall::papers
