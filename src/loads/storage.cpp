// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/storage.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "loads/ranges.h"
#include "loads/stream_net.h"

namespace sightfall::loads {
namespace {

using namespace units;
using site::Redundancy;

constexpr DataSize kTerabyte = 1e12 * byte;
/// A minute and a half a day: the least that is reckoned with, so that nothing recorded does not keep for ever.
constexpr double kLeastShare = 1e-3;

Ranged<double> plain(const Ranged<DataSize>& range) {
  return each(range, [](DataSize one) { return one.si(); });
}
Ranged<double> plain(const Ranged<DataRate>& range) {
  return each(range, [](DataRate one) { return one.si(); });
}
Ranged<Time> times(const Ranged<double>& range) {
  return each(range, [](double one) { return Time{one}; });
}

Ranged<double> share_stated(const camera::Recording& recording, const detail::Typical& typical) {
  switch (recording.mode) {
    case camera::RecordingMode::kHours:
      return Ranged<double>::exact(recording.hours_a_day.value_or(24) / 24);
    case camera::RecordingMode::kMotion:
      return recording.motion_share ? Ranged<double>::exact(*recording.motion_share) : typical.motion_share.value;
    case camera::RecordingMode::kAlways:
      break;
  }
  return Ranged<double>::exact(1);
}

/// Share of the day that is recorded.
Ranged<double> recorded(const camera::Recording& recording, const detail::Typical& typical) {
  return each(share_stated(recording, typical), [](double share) { return std::max(share, kLeastShare); });
}

/// What is recorded of a day, in one light or in the other, beside the mean of both: all hours that there are of the
/// one that sends less, or more, come first.
Ranged<double> by_light(const StreamRate& rate, double share) {
  const double low = std::min(rate.day.rate.nominal, rate.night.rate.nominal).si(),
               high = std::max(rate.day.rate.nominal, rate.night.rate.nominal).si(), mean = (low + high) / 2;
  if (mean <= 0 || share >= 1) return Ranged<double>::exact(1);
  const double first = std::min(1.0, 0.5 / share);
  return {(first * low + (1 - first) * high) / mean, 1, (first * high + (1 - first) * low) / mean};
}

/// The same camera with twice the pixels: a forecast doubles, a rate that is held or cut stays.
StreamRate doubled(StreamRate rate) {
  for (RateInLight* light : {&rate.day, &rate.night}) {
    const auto& most = rate.stream.rate;
    if (rate.stream.control == camera::RateControl::kConstant && most) continue;
    light->rate =
        each(light->rate, [&](DataRate one) { return most ? std::min(2 * one, std::max(*most, one)) : 2 * one; });
  }
  return rate;
}

class Keeper {
 public:
  Keeper(const need::Project& project, const Cabling& cabling, const std::vector<StreamRate>& rates)
      : project_{project}, typical_{project.settings.typical}, net_{project, cabling}, rates_{rates} {}

  StorageLoads reckon() {
    for (const site::Feed& feed : project_.site.feeds)
      if (feed.kind == site::FeedKind::kRecorder) add_recorder(feed);
    for (const StreamRate& rate : rates_) {
      add_card(rate);
      tell_share(rate);
    }
    if (project_.keeping.wanted) look_for_unrecorded();
    if (const auto& most = project_.keeping.most)
      answer_.cautions.push_back({"", fmt::format("recordings may be kept for {:.3g} days at the most: {}",
                                                  most->in(day), project_.keeping.reason)});
    return std::move(answer_);
  }

 private:
  Ranged<DataSize> a_day(const StreamRate& rate) const { return a_day_of(project_, rate); }

  /// Days are wanted of every camera: of one that no recorder takes they are not known.
  void look_for_unrecorded() {
    const auto missing = std::count_if(rates_.begin(), rates_.end(), [&](const StreamRate& rate) {
      return net_.to_recorder(rate.camera).second.empty() && !recording_of(rate).card;
    });
    if (missing == 0) return;
    answer_.held = worse(answer_.held, Held::kUnknown);
    answer_.cautions.push_back(
        {"", fmt::format("{} of {} cameras lead to no recorder: whether they are kept as long as wanted is unknown",
                         missing, rates_.size())});
  }

  void tell_share(const StreamRate& rate) {
    const camera::Recording& recording = recording_of(rate);
    if (recording.mode == camera::RecordingMode::kMotion && recording.motion_share)
      answer_.cautions.push_back({rate.camera,
                                  "its share of motion is stated and stands without a range: another week, wind or "
                                  "rain gives another"});
    constexpr double kTrifle = 1.1;
    if (recording.mode == camera::RecordingMode::kHours &&
        by_light(rate, share_stated(recording, typical_).nominal).high > kTrifle)
      answer_.cautions.push_back(
          {rate.camera, fmt::format("records {:g} hours a day, and nothing says whether by day or by night, "
                                    "when it sends more or less: the high end is of the light in which it "
                                    "sends more",
                                    recording.hours_a_day.value_or(24))});
  }

  /// No longer than the law allows.
  Ranged<Time> as_allowed(const Ranged<Time>& kept) const {
    return each(kept, [&](Time one) { return std::min(one, project_.keeping.most.value_or(one)); });
  }

  void add_recorder(const site::Feed& feed) {
    RecorderStorage kept;
    kept.recorder = feed.name;
    Ranged<DataSize> doubled_day{};
    for (const StreamRate& rate : rates_)
      if (net_.to_recorder(rate.camera).second == feed.name) {
        kept.cameras.push_back(rate.camera);
        kept.a_day = added(kept.a_day, a_day(rate));
        doubled_day = added(doubled_day, a_day(doubled(rate)));
      }
    look_for_lacks(feed, kept);
    if (kept.lacks.empty()) {
      reckon_days(feed, doubled_day, kept);
      if (project_.keeping.wanted) kept.held = kept.wanted.held;
    }
    answer_.held = worse(answer_.held, kept.held);
    answer_.recorders.push_back(std::move(kept));
  }

  static void look_for_lacks(const site::Feed& feed, RecorderStorage& kept) {
    if (!feed.disks) {
      kept.held = Held::kUnknown;
      kept.lacks = "states no disks";
      kept.remedy = "state them: how long it keeps is unknown";
    } else if (const int least = least_disks(feed.disks->redundancy); feed.disks->count < least) {
      kept.held = Held::kMissed;
      kept.lacks = fmt::format("{} of the {} disks that its redundancy wants at least", feed.disks->count, least);
      kept.remedy = "more disks, or another redundancy";
    } else if (kept.a_day.nominal <= DataSize{0}) {
      kept.lacks = "no camera leads to it";
    }
  }

  void reckon_days(const site::Feed& feed, const Ranged<DataSize>& doubled_day, RecorderStorage& kept) const {
    const DataSize whole = capacity_of(*feed.disks);
    kept.raw = feed.disks->count * feed.disks->each;
    kept.usable = typical_.disk_share.value.nominal * whole;
    kept.may_fail = may_fail(feed.disks->redundancy);
    const auto days = [&](const Ranged<DataSize>& a_day) {
      return times(spread({plain(a_day), typical_.disk_share.value},
                          [&](const auto& at) { return at[1] * whole.si() / at[0] * day.si(); }));
    };
    kept.kept = days(kept.a_day);
    kept.told = as_allowed(kept.kept);
    kept.kept_doubled = days(doubled_day);
    kept.told_doubled = as_allowed(kept.kept_doubled);
    if (kept.may_fail > 0)
      kept.rebuild = times(spread({kRebuild}, [&](const auto& at) { return feed.disks->each.in(byte) / at[0]; }));
    if (!project_.keeping.wanted) return;
    kept.wanted_for = *project_.keeping.wanted;
    const double wanted_days = kept.wanted_for.in(day);
    const Ranged<double> asked = spread({plain(kept.a_day), typical_.disk_share.value}, [&](const auto& at) {
      return at[0] * wanted_days * typical_.disk_share.value.nominal / at[1];
    });
    kept.wanted = bear(each(asked, [](double bits) { return DataSize{bits}; }), std::optional(kept.usable),
                       fmt::format("what {:.3g} days take, beside what the disks leave for recordings", wanted_days));
    const double raw_over_usable = kept.raw / kept.usable;
    kept.raw_wanted = each(kept.wanted.load, [&](DataSize one) { return raw_over_usable * one; });
    if (kept.wanted.held != Held::kMet)
      kept.wanted.remedy = fmt::format(
          "{:.1f} TB of disks to be sure of {:.3g} days ({:.1f} are likely to do), or lower ceilings on the rates, or "
          "recording by motion",
          kept.raw_wanted.high / kTerabyte, wanted_days, kept.raw_wanted.nominal / kTerabyte);
  }

  const camera::Recording& recording_of(const StreamRate& rate) const {
    return need::the_named(project_.cameras, rate.camera).recording;
  }

  void add_card(const StreamRate& rate) {
    const camera::Recording& recording = recording_of(rate);
    if (!recording.card) return;
    const Ranged<DataSize> written = a_day(rate);
    CardStorage card;
    card.camera = rate.camera, card.card = *recording.card;
    const Ranged<Time> holds = times(spread({plain(written), typical_.disk_share.value}, [&](const auto& at) {
      return at[1] * recording.card->si() / at[0] * day.si();
    }));
    card.kept = as_allowed(holds);
    card.cut = card.kept.low < holds.low;
    card.lives =
        times(spread({plain(written), typical_.write_amplification.value, typical_.card_cycles.value},
                     [&](const auto& at) { return at[2] * recording.card->si() / (at[0] * at[1]) * day.si(); }));
    judge_card(written, card);
    answer_.held = worse(answer_.held, card.held);
    if (card.kept.nominal < day)
      answer_.cautions.push_back(
          {rate.camera, fmt::format("its card of {:.0f} GB keeps {:.1f} hours: less than a day",
                                    recording.card->in(1e9 * byte), card.kept.nominal.in(hour))});
    answer_.cards.push_back(std::move(card));
  }

  void judge_card(const Ranged<DataSize>& written, CardStorage& card) const {
    const bool alone = net_.to_recorder(card.camera).second.empty();
    card.wanted_for = alone ? project_.keeping.wanted.value_or(kCardBeside) : kCardBeside;
    const double days = card.wanted_for / day;
    const Ranged<double> asked =
        spread({plain(written), typical_.disk_share.value}, [&](const auto& at) { return at[0] * days / at[1]; });
    card.wanted = bear(each(asked, [](double bits) { return DataSize{bits}; }), std::optional(card.card),
                       alone ? "the card for the days that it is to keep"
                             : "the card for the day that it is to bridge while its recorder is away (common practice, "
                               "no published source)");
    if (card.wanted.held != Held::kMet)
      card.wanted.remedy = fmt::format("a card of {:.0f} GB ({:.0f} to {:.0f}), or a ceiling on its rate",
                                       card.wanted.load.nominal.in(1e9 * byte), card.wanted.load.low.in(1e9 * byte),
                                       card.wanted.load.high.in(1e9 * byte));
    card.life = card.lives.low >= kCardLife   ? Held::kMet
                : card.lives.high < kCardLife ? Held::kMissed
                                              : Held::kMarginal;
    card.remedy = card.wanted.remedy;
    if (card.life != Held::kMet)
      card.remedy += std::string(card.remedy.empty() ? "" : "; ") +
                     "it may be worn within a year: a larger card, or one made for being written all the time";
    card.held = worse(card.wanted.held, card.life);
  }

  const need::Project& project_;
  const detail::Typical& typical_;
  const StreamNet net_;
  const std::vector<StreamRate>& rates_;
  StorageLoads answer_;
};

}  // namespace

Ranged<DataSize> a_day_of(const need::Project& project, const StreamRate& rate) {
  const camera::Camera& camera = need::the_named(project.cameras, rate.camera);
  const Ranged<double> share = recorded(camera.recording, project.settings.typical);
  return each(product({plain(mean_of(rate)), share, by_light(rate, share.nominal)}),
              [](double bits) { return DataRate{bits} * day; });
}

int may_fail(Redundancy redundancy) {
  constexpr std::array<int, 5> kTable{0, 1, 1, 2, 1};
  return kTable.at(static_cast<size_t>(redundancy));
}

int least_disks(Redundancy redundancy) {
  constexpr std::array<int, 5> kTable{1, 2, 3, 4, 4};
  return kTable.at(static_cast<size_t>(redundancy));
}

DataSize capacity_of(const site::Disks& disks) {
  switch (disks.redundancy) {
    case Redundancy::kNone:
      break;
    case Redundancy::kMirror:
      return disks.each;
    case Redundancy::kRaid5:
      return (disks.count - 1) * disks.each;
    case Redundancy::kRaid6:
      return (disks.count - 2) * disks.each;
    case Redundancy::kRaid10:
      return (disks.count - disks.count % 2) * 0.5 * disks.each;
  }
  return disks.count * disks.each;
}

std::string disks_in_words(const RecorderStorage& recorder) {
  if (recorder.raw <= DataSize{0}) return {};
  std::string text =
      fmt::format("{:.3g} TB of disks leave {:.3g} TB ({:.3g} TiB) for recordings; ", recorder.raw.in(1e12 * byte),
                  recorder.usable.in(1e12 * byte), recorder.usable / kTebibyte);
  if (!recorder.rebuild) return text + "no disk may fail";
  text += recorder.may_fail == 1 ? "one disk may fail" : fmt::format("{} disks may fail", recorder.may_fail);
  return text + fmt::format(", and a new one takes {:.0f} hours ({:.0f} to {:.0f}) to be filled again",
                            recorder.rebuild->nominal.in(hour), recorder.rebuild->low.in(hour),
                            recorder.rebuild->high.in(hour));
}

std::string doubled_in_words(const RecorderStorage& recorder) {
  if (!recorder.lacks.empty()) return {};
  const Ranged<Time>& doubled = recorder.told_doubled;
  const std::string about = "with twice the pixels of each camera, ceilings as they are, ";
  if (doubled.low < recorder.kept_doubled.low)
    return about + fmt::format("{:g} days, the most that is allowed", doubled.high.in(day));
  const bool held = doubled.nominal >= recorder.told.nominal;
  return about + fmt::format("{:.1f} days ({:.1f} to {:.1f}){}", doubled.nominal.in(day), doubled.low.in(day),
                             doubled.high.in(day), held ? ": at a rate that is held the quality falls instead" : "");
}

StorageLoads storage(const need::Project& project, const Cabling& cabling, const std::vector<StreamRate>& rates) {
  return Keeper(project, cabling, rates).reckon();
}

}  // namespace sightfall::loads
