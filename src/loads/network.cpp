// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/network.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <queue>

#include "loads/packets.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;
using site::Feed;
using site::FeedKind;

constexpr DataRate kUsualPort = 100.0 * (Mbit / s);

/// The runs that carry data, as a net without direction.
class Net {
 public:
  Net(const need::Project& project, const Cabling& cabling) : project_{project}, cabling_{cabling} {
    for (size_t i = 0; i < cabling.runs.size(); ++i) {
      if (cabling.runs[i].cable->medium == site::CableMedium::kConductors) continue;
      at_[cabling.runs[i].run->from].push_back(i);
      at_[cabling.runs[i].run->to].push_back(i);
    }
  }

  /// The runs from a camera to the nearest recorder, and its name; empty when none is reached.
  std::pair<std::vector<size_t>, std::string> to_recorder(const std::string& camera) const {
    std::map<std::string, std::pair<std::string, size_t>> came;  // by node: from which, by which run
    std::queue<std::string> open;
    open.push(camera);
    came[camera] = {};
    while (!open.empty()) {
      const std::string here = open.front();
      open.pop();
      const Feed* feed = need::find_named(project_.site.feeds, here);
      if (feed != nullptr && feed->kind == FeedKind::kRecorder) return {way_back(came, camera, here), here};
      const auto runs = at_.find(here);
      if (runs == at_.end()) continue;
      for (const size_t i : runs->second) {
        const site::Run& run = *cabling_.runs[i].run;
        const std::string& there = run.from == here ? run.to : run.from;
        if (came.emplace(there, std::pair{here, i}).second) open.push(there);
      }
    }
    return {};
  }

 private:
  static std::vector<size_t> way_back(const std::map<std::string, std::pair<std::string, size_t>>& came,
                                      const std::string& camera, std::string here) {
    std::vector<size_t> runs;
    while (here != camera) {
      runs.push_back(came.at(here).second);
      here = came.at(here).first;
    }
    return runs;
  }

  const need::Project& project_;
  const Cabling& cabling_;
  std::map<std::string, std::vector<size_t>> at_;
};

/// The lowest of port, uplink and cable.
DataRate carries(const need::Project& project, const LaidRun& laid) {
  const Feed& from = need::the_named(project.site.feeds, laid.run->from);
  DataRate least = from.ports.rate.value_or(kUsualPort);
  const Feed* to = need::find_named(project.site.feeds, laid.run->to);
  if (to != nullptr) least = std::min(least, to->uplink.value_or(to->ports.rate.value_or(kUsualPort)));
  return laid.cable->rate ? std::min(least, *laid.cable->rate) : least;
}

double used(const Bearing<DataRate>& bearing, DataRate more) {
  return bearing.capacity ? (bearing.load.nominal + more) / *bearing.capacity : 0;
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
    add_links();
    add_intakes();
    add_ways_out();
    for (const auto* list : {&answer_.links, &answer_.ways_out})
      for (const LinkLoad& one : *list) answer_.held = worse(answer_.held, one.rate.held);
    for (const IntakeLoad& one : answer_.intakes) answer_.held = worse(answer_.held, one.rate.held);
    if (!answer_.unrecorded.empty()) answer_.held = worse(answer_.held, Held::kUnknown);
    answer_.first_to_fail = first_to_fail();
    return std::move(answer_);
  }

 private:
  void add_streams() {
    for (const StreamRate& rate : answer_.rates) {
      tell(rate);
      const auto [runs, recorder] = net_.to_recorder(rate.camera);
      if (recorder.empty()) {
        answer_.unrecorded.push_back(rate.camera);
        answer_.cautions.push_back({rate.camera, "no run leads from it to a recorder"});
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

  /// What is so of its rate, wherever its stream goes.
  void tell(const StreamRate& rate) {
    if (rate.night.at_ceiling)
      answer_.cautions.push_back({rate.camera,
                                  "by night its noise takes it to the ceiling of its rate: the quality "
                                  "falls there, which the needs' verdicts count with"});
    if (rate.assumed)
      answer_.cautions.push_back({rate.camera,
                                  "its sheet states no stream: H.264 at the usual quality without a "
                                  "ceiling is taken; state codec, control and rate, for its forecast is "
                                  "wide"});
  }

  void add_links() {
    for (const auto& [index, load] : on_run_) {
      const LaidRun& laid = cabling_.runs[index];
      LinkLoad link{laid.run->name, laid.run->from, laid.run->to, streams_on_[index],
                    bear(load, std::optional(carries(project_, laid)), "the lowest of port, uplink and cable")};
      if (link.rate.held != Held::kMet)
        link.rate.remedy = fmt::format("a link that carries {}, or ceilings on the rates", in_mbit(load.high));
      answer_.links.push_back(std::move(link));
    }
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

  /// Another camera like the one that sends most, hung where that one hangs.
  std::string first_to_fail() const {
    const auto most = std::max_element(
        answer_.rates.begin(), answer_.rates.end(),
        [](const StreamRate& a, const StreamRate& b) { return peak_of(a).nominal < peak_of(b).nominal; });
    if (most == answer_.rates.end()) return {};
    const DataRate more = peak_of(*most).nominal;
    const auto runs = net_.to_recorder(most->camera).first;
    double fullest = 0;
    std::string what;
    const auto look = [&](double share, const std::string& name) {
      if (share > fullest) fullest = share, what = name;
    };
    for (const LinkLoad& link : answer_.links) {
      const bool on_the_way =
          std::any_of(runs.begin(), runs.end(), [&](size_t i) { return cabling_.runs[i].run->name == link.run; });
      // Its own run is a new one, and carries no more than this one.
      if (on_the_way && link.to != most->camera)
        look(used(link.rate, kOverRtp * more), "the link \"" + link.run + "\"");
    }
    for (const IntakeLoad& intake : answer_.intakes)
      look(used(intake.rate, more), "the intake of \"" + intake.recorder + "\"");
    if (std::string full = full_feed(runs); !full.empty()) return full;
    if (what.empty()) return "nothing whose capacity is known";
    return fmt::format("{}, then used to {:.0f} % by another camera like \"{}\"", what, 100 * fullest, most->camera);
  }

  /// The feed next to the camera that has no port left.
  std::string full_feed(const std::vector<size_t>& runs) const {
    if (runs.empty()) return {};
    const std::string& name = cabling_.runs[runs.back()].run->from;
    const Feed& feed = need::the_named(project_.site.feeds, name);
    const auto in_use = std::count_if(cabling_.runs.begin(), cabling_.runs.end(),
                                      [&](const LaidRun& one) { return one.run->from == name; });
    if (in_use < feed.ports.count) return {};
    return fmt::format("the ports of \"{}\": all {} are in use", name, feed.ports.count);
  }

  const need::Project& project_;
  const Cabling& cabling_;
  Net net_;
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
  return Net(project, cabling).to_recorder(camera).second;
}

}  // namespace sightfall::loads
