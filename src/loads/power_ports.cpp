// SPDX-License-Identifier: GPL-3.0-or-later
// What hangs on powered ports.
#include <fmt/format.h>

#include <algorithm>

#include "loads/copper.h"
#include "loads/poe.h"
#include "loads/power_parts.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// What would carry that draw, in words.
std::string port_for(Power drawn) {
  const auto number = class_for(drawn);
  return number ? fmt::format("a port and a device of class {}", *number) : "a supply of its own";
}

std::string refused(const site::Feed& feed, std::optional<int> asked, Power drawn) {
  const bool by_port = asked && *asked > feed.ports.power_class && drawn <= power_class(*asked).device;
  return by_port ? fmt::format("a port of class {}: this one gives class {}", *asked, feed.ports.power_class)
                 : "ask the maker of which class it is; it wants " + port_for(drawn);
}

void add_loss(const LaidRun& laid, const Ranged<Power>& drawn, const detail::Typical& typical, PortLoad& port) {
  const PowerClass& in_force = power_class(port.power_class);
  const Ranged<double> loop = loop_of(laid, in_force.pairs, typical);
  const std::vector<Ranged<double>> inputs{plain(drawn), loop};
  const auto behind = [&](const std::vector<double>& at) {
    return fed(in_force.least, Resistance{at[1]}, Power{at[0]});
  };
  if (!behind({drawn.high.si(), loop.high})) {
    port.at_port = {{}, in_force.port, Held::kMissed, "what the cable can carry", "a shorter or thicker cable"};
    return;
  }
  port.lost = watts(spread(inputs, [&](const auto& at) { return std::max(behind(at)->lost.si(), 1e-9); }));
  port.voltage = each(spread(inputs, [&](const auto& at) { return behind(at)->at_device.si(); }),
                      [](double v) { return Potential{v}; });
  port.at_port =
      bear(watts(spread(inputs, [&](const auto& at) { return std::max(at[0] + behind(at)->lost.si(), 1e-9); })),
           std::optional(in_force.port),
           fmt::format("what a port of class {} gives at {:.0f} V, its least", port.power_class, in_force.least.in(V)));
  if (port.at_port.held != Held::kMet) port.at_port.remedy = "a shorter or thicker cable, or a port of a higher class";
}

}  // namespace

Ranged<double> loop_of(const LaidRun& laid, int parallel, const detail::Typical& typical) {
  const Ranged<double> length = each(laid.length, [](Length one) { return one.si(); });
  const Ranged<double> warm = each(typical.conductor_temperature.value, [](double c) { return warmed(c); });
  const double per_metre = laid.cable->resistance.value_or(Resistivity{0}).si();
  return product({length, warm, Ranged<double>::exact(2 * per_metre / parallel)});
}

PortLoad port_load(const LaidRun& laid, const site::Feed& feed, const Hung& hung, const detail::Typical& typical) {
  const std::optional<int> asked = hung.supply ? class_in_words(*hung.supply) : std::nullopt;
  PortLoad port;
  port.run = laid.run->name, port.feed = feed.name, port.port = laid.run->port, port.to = hung.name;
  // Class 0 is unclassified, and may draw what class 3 may.
  const int most = asked == kLowestClass ? 3 : asked.value_or(kHighestClass);
  port.power_class = std::min(feed.ports.power_class, most);
  const PowerClass& in_force = power_class(port.power_class);
  port.device = bear(hung.largest, std::optional(in_force.device),
                     fmt::format("what a device of class {} may draw, IEEE 802.3{}", port.power_class,
                                 asked ? "" : "; no sheet names its class, the port's is taken"));
  if (port.device.held != Held::kMet) port.device.remedy = refused(feed, asked, hung.largest.high);
  add_loss(laid, hung.largest, typical, port);
  if (const Power margin = *port.device.margin();
      port.device.held == Held::kMet && port.at_port.held == Held::kMet && margin < 0.05 * in_force.device)
    port.device.remedy = fmt::format("{:.2f} W of {:.2f} W: it passes by a hair, {:.2f} W are left",
                                     hung.largest.nominal.in(W), in_force.device.in(W), margin.in(W));
  port.held = worse(port.device.held, port.at_port.held);
  if (hung.supply && !names_poe(*hung.supply)) {
    port.held = worse(port.held, Held::kUnknown);
    port.device.remedy =
        "the sheet says \"" + *hung.supply + "\": find out whether it takes power over its network cable";
  }
  if (laid.to_lay().medium == site::CableMedium::kFibre) {
    port.held = Held::kMissed;
    port.device.remedy = kNoPowerByFibre;
    return port;
  }
  if (!hung.whole) {
    port.held = worse(port.held, Held::kUnknown);
    port.device.remedy = "state what \"" + hung.name + "\" draws itself: its sheet says it";
  }
  return port;
}

}  // namespace sightfall::loads
