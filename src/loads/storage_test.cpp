// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/storage.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loads/ranges.h"
#include "loads/test_streams.h"

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

constexpr DataSize kGigabyte = 1e9 * byte, kTerabyte = 1e12 * byte;

StorageLoads loads(const Networked& net) { return storage(net.project, net.cabling(), net.rates); }

Networked one_camera(double mbit) {
  Networked net;
  net.rates = {rate_of("eye", mbit, mbit)};
  return net;
}

// Arithmetic: 4 Mbit/s for 24 h are 43.2 GB, 40.233 GiB; a terabyte is 0.9095 TiB.
TEST(Storage, ADayIsRateTimesTime) {
  const RecorderStorage kept = loads(one_camera(4)).recorders.front();
  EXPECT_NEAR(kept.a_day.nominal / kGigabyte, 43.2, 1e-9);
  EXPECT_NEAR(kept.a_day.nominal / kTebibyte * 1024, 40.233, 1e-3);
  EXPECT_NEAR(kTerabyte / kTebibyte, 0.9095, 5e-5);
  EXPECT_NEAR(kept.kept.nominal.in(day), 1000 / 43.2, 1e-9);
}

// SNIA dictionary: of six disks of 4 TB RAID 5, 6 and 10 leave 20, 16 and 12 TB: 18.190, 14.552, 10.914 TiB.
TEST(Storage, RedundancyLeavesWhatTheDictionarySays) {
  const auto of = [](site::Redundancy redundancy) { return capacity_of({6, 4 * kTerabyte, redundancy}); };
  EXPECT_NEAR(of(site::Redundancy::kRaid5) / kTebibyte, 18.190, 1e-3);
  EXPECT_NEAR(of(site::Redundancy::kRaid6) / kTebibyte, 14.552, 1e-3);
  EXPECT_NEAR(of(site::Redundancy::kRaid10) / kTebibyte, 10.914, 1e-3);
  EXPECT_NEAR(of(site::Redundancy::kNone) / kTerabyte, 24, 1e-9);
  EXPECT_NEAR(capacity_of({2, 4 * kTerabyte, site::Redundancy::kMirror}) / kTerabyte, 4, 1e-9);
  EXPECT_EQ(may_fail(site::Redundancy::kRaid6), 2);
  EXPECT_EQ(may_fail(site::Redundancy::kNone), 0);
}

TEST(Storage, NightCountsHalfOfTheHours) {
  Networked net;
  net.rates = {rate_of("eye", 2, 8)};
  EXPECT_NEAR(loads(net).recorders.front().a_day.nominal / kGigabyte, 54, 1e-9);  // 5 Mbit/s
}

TEST(Storage, RecordingByHoursOrMotionKeepsLonger) {
  Networked net = one_camera(4);
  net.project.cameras.front().recording = {camera::RecordingMode::kHours, 6.0, {}, {}};
  EXPECT_NEAR(loads(net).recorders.front().kept.nominal.in(day), 4 * 1000 / 43.2, 1e-9);
  net.project.cameras.front().recording = {camera::RecordingMode::kMotion, {}, {}, {}};
  EXPECT_NEAR(loads(net).recorders.front().kept.nominal.in(day), 4 * 1000 / 43.2, 1e-9);  // a quarter of the time
  net.project.settings.typical.motion_share.value = {0.1, 0.25, 0.5};
  EXPECT_NEAR(loads(net).recorders.front().kept.low.in(day), 2 * 1000 / 43.2, 1e-9);
}

/// 2 Mbit/s by day and 8 by night: six hours are 5.4 GB by day, 21.6 by night; of 18 at least six are of the other.
TEST(Storage, WhenWhatIsNotRecordedAlwaysIsRecordedIsNotKnown) {
  Networked net;
  net.rates = {rate_of("eye", 2, 8)};
  const auto a_day = [&](double hours) {
    net.project.cameras.front().recording = {camera::RecordingMode::kHours, hours, {}, {}};
    return each(loads(net).recorders.front().a_day, [](DataSize one) { return one / kGigabyte; });
  };
  EXPECT_NEAR(a_day(6).low, 5.4, 1e-9);
  EXPECT_NEAR(a_day(6).nominal, 13.5, 1e-9);
  EXPECT_NEAR(a_day(6).high, 21.6, 1e-9);
  EXPECT_NEAR(a_day(18).low, 12 * 0.9 + 6 * 3.6, 1e-9);
  EXPECT_NEAR(a_day(18).high, 6 * 0.9 + 12 * 3.6, 1e-9);
  EXPECT_NEAR(a_day(24).high, a_day(24).low, 1e-9);
  a_day(6);
  EXPECT_THAT(loads(net).cautions, Contains(Field(&Caution::text, HasSubstr("records 6 hours a day"))));
}

TEST(Storage, AStatedShareOfMotionIsSaidToBeOne) {
  Networked net = one_camera(4);
  const auto said = Contains(Field(&Caution::text, HasSubstr("stands without a range")));
  net.project.cameras.front().recording = {camera::RecordingMode::kMotion, {}, {}, {}};
  EXPECT_THAT(loads(net).cautions, Not(said));
  net.project.cameras.front().recording.motion_share = 0.2;
  EXPECT_THAT(loads(net).cautions, said);
}

TEST(Storage, WhatTwiceThePixelsDoIsSaid) {
  Networked net = one_camera(4);
  net.project.settings.typical.disk_share.value = {0.8, 0.9, 1};
  EXPECT_THAT(doubled_in_words(loads(net).recorders.front()),
              HasSubstr("twice the pixels of each camera, ceilings as they are, 10.4 days (9.3 to 11.6)"));
  net.rates.front().stream.control = camera::RateControl::kConstant;
  net.rates.front().stream.rate = 4.0 * (Mbit / s);
  EXPECT_THAT(doubled_in_words(loads(net).recorders.front()), HasSubstr("20.8 days (18.5 to 23.1): at a rate that is"));
}

TEST(Storage, AMotionShareOfNothingKeepsLongButNotForEver) {
  Networked net = one_camera(4);
  net.project.cameras.front().recording = {camera::RecordingMode::kMotion, {}, 0.0, 128 * kGigabyte};
  net.project.settings.typical.motion_share.value = {0, 0.1, 0.3};
  const StorageLoads answer = loads(net);
  ASSERT_THAT(answer.recorders, SizeIs(1));
  ASSERT_THAT(answer.cards, SizeIs(1));
  EXPECT_NEAR(answer.recorders.front().kept.nominal.in(day), 1000 * 1000 / 43.2, 1e-6);
  net.project.cameras.front().recording.motion_share.reset();
  EXPECT_NEAR(loads(net).recorders.front().kept.high.in(day), 1000 * 1000 / 43.2, 1e-6);
  EXPECT_NEAR(loads(net).recorders.front().kept.nominal.in(day), 10 * 1000 / 43.2, 1e-9);
}

TEST(Storage, DaysWantedOfACameraThatLeadsToNoRecorderAreUnknown) {
  Networked net = one_camera(4);
  net.project.keeping.wanted = 10.0 * day;
  EXPECT_EQ(loads(net).held, Held::kMet);
  net.project.site.runs.clear();
  const StorageLoads answer = loads(net);
  EXPECT_EQ(answer.held, Held::kUnknown);
  EXPECT_THAT(answer.cautions, Contains(Field(&Caution::text, HasSubstr("1 of 1 cameras lead to no recorder"))));
  net.project.keeping.wanted.reset();
  EXPECT_EQ(loads(net).held, Held::kMet);
}

TEST(Storage, TheDiskForTheDaysWantedIsToldAndTheirVerdict) {
  Networked net = one_camera(4);
  net.project.keeping.wanted = 30.0 * day;
  const RecorderStorage kept = loads(net).recorders.front();
  EXPECT_EQ(kept.wanted.held, Held::kMissed);
  EXPECT_NEAR(kept.raw_wanted.nominal / kTerabyte, 1.296, 1e-9);
  EXPECT_THAT(kept.wanted.remedy, HasSubstr("1.3 TB"));
  net.project.site.feeds[1].disks->each = 1.4 * kTerabyte;
  EXPECT_EQ(loads(net).recorders.front().wanted.held, Held::kMet);
  EXPECT_EQ(loads(net).held, Held::kMet);
}

TEST(Storage, TheLawsCapCutsTheDaysAndItsReasonIsPrinted) {
  Networked net = one_camera(4);
  net.project.keeping.most = 3.0 * day;
  net.project.keeping.reason = "an invented law";
  const StorageLoads answer = loads(net);
  EXPECT_NEAR(answer.recorders.front().told.nominal.in(day), 3, 1e-9);
  EXPECT_GT(answer.recorders.front().kept.nominal.in(day), 20);
  EXPECT_GT(answer.recorders.front().kept_doubled.nominal.in(day), 10);
  EXPECT_NEAR(answer.recorders.front().told_doubled.nominal.in(day), 3, 1e-9) << "whatever the pixels";
  EXPECT_THAT(answer.cautions, Contains(Field(&Caution::text, HasSubstr("an invented law"))));
}

TEST(Storage, TwiceThePixelsHalveTheDaysUnlessTheRateIsCut) {
  Networked net = one_camera(4);
  EXPECT_NEAR(loads(net).recorders.front().kept_doubled.nominal.in(day), 500 / 43.2, 1e-9);
  net.rates.front().stream.control = camera::RateControl::kCapped;
  net.rates.front().stream.rate = 4.0 * (Mbit / s);
  EXPECT_NEAR(loads(net).recorders.front().kept_doubled.nominal.in(day), 1000 / 43.2, 1e-9);
}

// 16 Mbit/s, as 8 MP at a high rate: a card of 128 GB keeps 17.8 h.
TEST(Storage, ACardAtHighRatesKeepsLessThanADayAndItIsSaid) {
  Networked net = one_camera(16);
  net.project.cameras.front().recording.card = 128 * kGigabyte;
  const StorageLoads answer = loads(net);
  ASSERT_THAT(answer.cards, SizeIs(1));
  EXPECT_NEAR(answer.cards.front().kept.nominal.in(hour), 128e9 * 8 / 16e6 / 3600, 1e-9);
  EXPECT_THAT(answer.cautions, Contains(Field(&Caution::text, HasSubstr("keeps 17.8 hours: less than a day"))));
  // 3000 cycles of 128 GB are 384 TB; written twice over at 172.8 GB a day.
  EXPECT_NEAR(answer.cards.front().lives.nominal.in(day), 384e12 / (2 * 172.8e9), 1e-6);
}

TEST(Storage, ACardKeepsNoLongerThanTheLawAllows) {
  Networked net = one_camera(4);
  net.project.cameras.front().recording.card = 1000 * kGigabyte;
  EXPECT_GT(loads(net).cards.front().kept.nominal, 20.0 * day);
  EXPECT_FALSE(loads(net).cards.front().cut);
  net.project.keeping.most = 3.0 * day;
  EXPECT_EQ(loads(net).cards.front().kept.high, 3.0 * day);
  EXPECT_TRUE(loads(net).cards.front().cut);
}

// Endurance: 600 TB written at 4 Mbit/s are 13 888.9 days, with an amplification of two half of it.
TEST(Storage, WearIsWhatIsWritten) {
  Networked net = one_camera(4);
  net.project.cameras.front().recording.card = 200 * kGigabyte;  // x 3000 cycles = 600 TB
  EXPECT_NEAR(loads(net).cards.front().lives.nominal.in(day), 13888.9 / 2, 0.1);
}

// Written once a day for three years, a card of 128 GB takes 140.16 TB: 1095 cycles without amplification.
TEST(Storage, OneWriteADayForThreeYearsIsWhatItsCyclesTake) {
  Networked net = one_camera(128e9 * 8 / 86400 / 1e6);
  net.project.cameras.front().recording.card = 128 * kGigabyte;
  net.project.settings.typical.write_amplification = need::exactly(1, "write amplification");
  net.project.settings.typical.card_cycles = need::exactly(1095, "cycles");
  const StorageLoads answer = loads(net);
  EXPECT_NEAR(answer.cards.front().lives.nominal.in(365 * day), 3, 1e-9);
  EXPECT_NEAR(answer.recorders.front().a_day.nominal * 1095 / kTerabyte, 140.16, 1e-9);
}

TEST(Storage, TooFewDisksForTheirRedundancyAreMissed) {
  Networked net = one_camera(4);
  net.project.site.feeds[1].disks = site::Disks{2, kTerabyte, site::Redundancy::kRaid5};
  const StorageLoads answer = loads(net);
  EXPECT_EQ(answer.held, Held::kMissed);
  ASSERT_THAT(answer.recorders, SizeIs(1));
  EXPECT_EQ(answer.recorders.front().held, Held::kMissed);
  EXPECT_EQ(answer.recorders.front().lacks, "2 of the 3 disks that its redundancy wants at least");
}

TEST(Storage, ARecorderOfWhichNoDisksAreStatedIsUnknownAndThere) {
  Networked net = one_camera(4);
  net.project.site.feeds[1].disks.reset();
  const StorageLoads answer = loads(net);
  EXPECT_EQ(answer.held, Held::kUnknown);
  ASSERT_THAT(answer.recorders, SizeIs(1));
  EXPECT_EQ(answer.recorders.front().held, Held::kUnknown);
  EXPECT_THAT(answer.recorders.front().cameras, SizeIs(1));
  net.project.site.runs.clear();
  net.project.site.feeds[1].disks = site::Disks{1, kTerabyte, site::Redundancy::kNone};
  EXPECT_EQ(loads(net).recorders.front().lacks, "no camera leads to it");
}

// 4 Mbit/s are 43.2 GB a day: ten days take 432 GB, one takes 43.2; 3000 cycles of 100 GB are 300 TB, written twice.
TEST(Storage, ACardAloneKeepsTheDaysWantedAndOneBesideARecorderBridgesADay) {
  Networked net = one_camera(4);
  net.project.keeping.wanted = 10.0 * day;
  net.project.cameras.front().recording.card = 100 * kGigabyte;
  EXPECT_EQ(loads(net).cards.front().held, Held::kMet);
  EXPECT_NEAR(loads(net).cards.front().wanted.load.nominal / kGigabyte, 43.2, 1e-9);
  net.project.cameras.front().recording.card = 40 * kGigabyte;
  EXPECT_EQ(loads(net).cards.front().wanted.held, Held::kMissed);
  EXPECT_EQ(loads(net).held, Held::kMissed);
  net.project.site.runs.clear();
  net.project.cameras.front().recording.card = 100 * kGigabyte;
  const StorageLoads alone = loads(net);
  EXPECT_NEAR(alone.cards.front().wanted.load.nominal / kGigabyte, 432, 1e-9);
  EXPECT_EQ(alone.cards.front().held, Held::kMissed);
  EXPECT_THAT(alone.cards.front().remedy, HasSubstr("a card of 432 GB"));
  net.project.cameras.front().recording.card = 500 * kGigabyte;
  EXPECT_EQ(loads(net).held, Held::kMet);  // it leads to no recorder, and its card keeps it
}

TEST(Storage, ACardThatIsWornWithinAYearIsMissed) {
  Networked net = one_camera(4);
  net.project.cameras.front().recording.card = 100 * kGigabyte;
  net.project.settings.typical.card_cycles = need::exactly(315, "cycles");  // 31.5 TB over 86.4 GB a day: 364.6 days
  const CardStorage card = loads(net).cards.front();
  EXPECT_EQ(card.wanted.held, Held::kMet);
  EXPECT_EQ(card.held, Held::kMissed);
  EXPECT_THAT(card.remedy, HasSubstr("worn within a year"));
  net.project.settings.typical.card_cycles.value = {300, 320, 400};
  EXPECT_EQ(loads(net).cards.front().held, Held::kMarginal);
  net.project.settings.typical.card_cycles = need::exactly(317, "cycles");
  EXPECT_EQ(loads(net).cards.front().held, Held::kMet);
}

TEST(Storage, MoreCamerasOrHigherRatesNeverKeepLonger) {
  Time before{1e300};
  for (double mbit = 1; mbit < 20; ++mbit) {
    Networked net;
    net.rates = {rate_of("eye", mbit, mbit), rate_of("other", mbit / 2, mbit)};
    const Time kept = loads(net).recorders.front().kept.nominal;
    EXPECT_LT(kept, before);
    before = kept;
    net.rates.pop_back();
    EXPECT_GT(loads(net).recorders.front().kept.nominal, kept);
  }
}

}  // namespace
}  // namespace sightfall::loads
