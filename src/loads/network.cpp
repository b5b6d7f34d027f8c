// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/network.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "loads/packets.h"
#include "loads/ranges.h"
#include "loads/stream_net.h"

namespace sightfall::loads {
namespace {

using namespace units;
using site::Feed;
using site::FeedKind;

constexpr DataRate kUsualPort = 100.0 * (Mbit / s);

/// The lowest of port, uplink and cable, and the feeds of which it was assumed.
std::pair<DataRate, std::vector<std::string>> carries(const need::Project& project, const LaidRun& laid) {
  std::optional<DataRate> least = laid.cable->rate;
  std::vector<std::string> assumed;
  const auto take = [&](const Feed& feed, const std::optional<DataRate>& stated) {
    if (!stated)
      assumed.push_back(feed.name);
    else if (!least || *stated < *least)
      least = stated;
  };
  const Feed& from = need::the_named(project.site.feeds, laid.run->from);
  take(from, from.ports.rate);
  if (const Feed* to = need::find_named(project.site.feeds, laid.run->to))
    take(*to, to->uplink ? to->uplink : to->ports.rate);
  if (assumed.empty() || (least && *least <= kUsualPort)) return {*least, {}};
  return {kUsualPort, assumed};
}

std::string in_mbit(DataRate rate) {
  const double mbit = rate.in(Mbit / s);
  return mbit < 1000 ? fmt::format("{:.3g} Mbit/s", mbit) : fmt::format("{:.0f} Mbit/s", mbit);
}

class Networker {
 public:
  Networker(const need::Project& project, const Cabling& cabling, std::vector<StreamRate> rates)
      : project_{project}, cabling_{cabling}, net_(project, cabling) {
    answer_.rates = std::move(rates);
  }

  NetworkLoads reckon() {
    add_streams();
    add_inside_viewers();
    add_links();
    tell_assumed();
    add_intakes();
    add_ways_out();
    for (const auto* list : {&answer_.links, &answer_.ways_out})
      for (const LinkLoad& one : *list) answer_.held = worse(answer_.held, one.rate.held);
    for (const IntakeLoad& one : answer_.intakes) answer_.held = worse(answer_.held, one.rate.held);
    answer_.ports = ports_in_use(project_);
    for (const PortsUse& one : answer_.ports) answer_.held = worse(answer_.held, one.held);
    if (!answer_.unrecorded.empty()) answer_.held = worse(answer_.held, Held::kUnknown);
    return std::move(answer_);
  }

 private:
  void add_streams() {
    for (const StreamRate& rate : answer_.rates) {
      tell(rate);
      const auto [runs, recorder] = net_.to_recorder(rate.camera);
      if (recorder.empty()) {
        const bool on_card = need::the_named(project_.cameras, rate.camera).recording.card.has_value();
        if (!on_card) answer_.unrecorded.push_back(rate.camera);
        answer_.cautions.push_back({rate.camera, on_card ? "no run leads from it to a recorder: its card alone keeps it"
                                                         : "no run leads from it to a recorder"});
        continue;
      }
      const Ranged<DataRate> peak = peak_of(rate);
      for (const size_t run : runs) {
        on_run_[run] = added(on_run_[run], each(peak, [](DataRate one) { return kOverRtp * one; }));
        ++streams_on_[run];
      }
      into_[recorder] = added(into_[recorder], peak);
      ++streams_into_[recorder];
    }
  }

  /// Each takes every camera's own stream; by multicast all of them together one copy on each link.
  void add_inside_viewers() {
    std::set<std::pair<size_t, std::string>> copied;
    for (const Feed& feed : project_.site.feeds) {
      if (feed.inside_viewers == 0) continue;
      for (const StreamRate& rate : answer_.rates)
        for (const size_t run : net_.to_feed(rate.camera, feed.name)) {
          const bool again = feed.multicast && !copied.emplace(run, rate.camera).second;
          const int copies = again ? 0 : feed.multicast ? 1 : feed.inside_viewers;
          on_run_[run] =
              added(on_run_[run], each(peak_of(rate), [&](DataRate one) { return copies * kOverRtp * one; }));
          streams_on_[run] += copies;
        }
    }
  }

  /// What is so of its rate, wherever its stream goes.
  void tell(const StreamRate& rate) {
    if (rate.night.at_ceiling)
      answer_.cautions.push_back({rate.camera,
                                  "by night its noise takes it to the ceiling of its rate: the quality "
                                  "falls there, which the needs' verdicts count with"});
    if (rate.assumed && !(rate.day.measured && rate.night.measured))
      answer_.cautions.push_back({rate.camera,
                                  "its sheet states no stream: H.264 at the usual quality without a "
                                  "ceiling is taken; state codec, control and rate, for its forecast is "
                                  "wide"});
    for (const RateInLight* light : {&rate.day, &rate.night})
      if (light->measured)
        answer_.cautions.push_back({rate.camera, "its rate in \"" + light->condition +
                                                     "\" is the mean of a clip and stands without a range: another "
                                                     "scene, or another encoder than the clip's, gives another"});
  }

  void add_links() {
    for (const auto& [index, load] : on_run_) {
      const LaidRun& laid = cabling_.runs[index];
      auto [capacity, assumed] = carries(project_, laid);
      LinkLoad link{laid.run->name, laid.run->from, laid.run->to, streams_on_[index],
                    bear(load, std::optional(capacity), "the lowest of port, uplink and cable")};
      if (link.rate.held != Held::kMet)
        link.rate.remedy = fmt::format("a link that carries {}, or ceilings on the rates", in_mbit(load.high));
      if (!assumed.empty()) link.rate.rule += fmt::format("; {} is assumed of a port", in_mbit(kUsualPort));
      link.assumed = std::move(assumed);
      answer_.links.push_back(std::move(link));
    }
  }

  void tell_assumed() {
    std::set<std::string> feeds;
    for (const LinkLoad& link : answer_.links) feeds.insert(link.assumed.begin(), link.assumed.end());
    for (const std::string& feed : feeds)
      answer_.cautions.push_back({feed, fmt::format("states no speed of its ports: {} is taken of each, as most have "
                                                    "at least (common practice, no published source)",
                                                    in_mbit(kUsualPort))});
  }

  void add_intakes() {
    for (const auto& [name, load] : into_) {
      const Feed& recorder = need::the_named(project_.site.feeds, name);
      IntakeLoad intake{name, streams_into_[name],
                        bear(load, recorder.intake, "the most that the recorder takes in, as its sheet says")};
      if (intake.rate.held == Held::kUnknown)
        intake.rate.remedy = "read from its sheet how much it records at once";
      else if (intake.rate.held != Held::kMet)
        intake.rate.remedy = fmt::format("a recorder that takes in {}, or ceilings on the rates", in_mbit(load.high));
      answer_.intakes.push_back(std::move(intake));
    }
  }

  void add_ways_out() {
    for (const Feed& feed : project_.site.feeds) {
      if (feed.kind != FeedKind::kRouter || feed.viewers == 0) continue;
      const Ranged<double>& usual = project_.settings.typical.viewer_rate.value;
      const Ranged<DataRate> one = feed.viewer_rate ? Ranged<DataRate>::exact(*feed.viewer_rate)
                                                    : each(usual, [](double rate) { return rate * (Mbit / s); });
      LinkLoad out{"", feed.name, "", feed.viewers,
                   bear(each(one, [&](DataRate rate) { return feed.viewers * kOverTcp * rate; }), feed.upload,
                        "the way out, for viewers who are each sent one small picture")};
      if (out.rate.held == Held::kUnknown)
        out.rate.remedy = "measure how fast the line is from the site to outside";
      else if (out.rate.held != Held::kMet)
        out.rate.remedy = "fewer viewers at once, smaller pictures, or a faster line";
      answer_.ways_out.push_back(std::move(out));
    }
  }

  const need::Project& project_;
  const Cabling& cabling_;
  StreamNet net_;
  std::map<size_t, Ranged<DataRate>> on_run_;
  std::map<size_t, int> streams_on_;
  std::map<std::string, Ranged<DataRate>> into_;
  std::map<std::string, int> streams_into_;
  NetworkLoads answer_;
};

}  // namespace

NetworkLoads network(const need::Project& project, const Cabling& cabling, std::vector<StreamRate> rates) {
  return Networker(project, cabling, std::move(rates)).reckon();
}

std::string recorder_of(const need::Project& project, const Cabling& cabling, const std::string& camera) {
  return StreamNet(project, cabling).to_recorder(camera).second;
}

}  // namespace sightfall::loads
