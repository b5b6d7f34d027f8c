// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"
#include "file/loads_values.h"

namespace sightfall::file {
namespace {

using namespace units;

Value watts(Power power) { return rounded(power.in(W), 100); }
Value watt_range(const Ranged<Power>& power) { return range(power, watts); }
Value volts(Potential potential) { return rounded(potential.in(V), 100); }

Value ampere_hours(Charge charge) { return rounded(charge.in(Ah), 100); }

Value draw_of(const loads::Draw& draw) {
  return Object{{"camera", draw.camera},
                {"body_w", watt_range(draw.body)},
                {"infrared_w", watt_range(draw.infrared)},
                {"heater_w", watt_range(draw.heater)},
                {"motor_w", watt_range(draw.motor)},
                {"day_w", watt_range(draw.by_day)},
                {"night_w", watt_range(draw.by_night)},
                {"largest_w", watt_range(draw.largest)}};
}

Value port_of(const loads::PortLoad& port) {
  return Object{{"run", port.run},
                {"feed", port.feed},
                {"port", port.port ? Value{*port.port} : Value{}},
                {"to", port.to},
                {"held", Value{loads::in_words(port.held)}},
                {"power_class", port.power_class},
                {"device", bearing_value(port.device, "w", watts)},
                {"at_port", bearing_value(port.at_port, "w", watts)},
                {"lost_w", watt_range(port.lost)},
                {"voltage_v", range(port.voltage, volts)}};
}

Value supply_run_of(const loads::SupplyRun& run) {
  return Object{{"run", run.run},
                {"feed", run.feed},
                {"to", run.to},
                {"held", Value{loads::in_words(run.held)}},
                {"drop", bearing_value(run.drop, "v", volts)},
                {"lost_w", watts(run.lost)},
                {"mismatch", text_or_null(run.mismatch)}};
}

Value feed_of(const loads::FeedLoad& feed) {
  return Object{{"feed", feed.feed},
                {"fed_by", text_or_null(feed.fed_by)},
                {"budget", feed.gives ? bearing_value(feed.budget, "w", watts) : Value{}},
                {"apparent", feed.apparent},
                {"set_aside_w", watts(feed.set_aside)},
                {"mains_day_w", watt_range(feed.mains_day)},
                {"mains_night_w", watt_range(feed.mains_night)}};
}

Value battery_of(const loads::BatteryLife& battery) {
  return Object{{"battery", battery.battery},
                {"feeds", text_list(battery.feeds)},
                {"drawn_w", watt_range(battery.drawn)},
                {"lasts_h", range(battery.lasts, [](Time one) { return rounded(one.in(hour), 100); })},
                {"wanted", battery.wanted.rule.empty() ? Value{} : bearing_value(battery.wanted, "ah", ampere_hours)}};
}

}  // namespace

Value loads_value(const loads::PowerLoads& power) {
  return Object{{"held", Value{loads::in_words(power.held)}},
                {"draws", list(power.draws, draw_of)},
                {"ports", list(power.ports, port_of)},
                {"supply_runs", list(power.supply_runs, supply_run_of)},
                {"feeds", list(power.feeds, feed_of)},
                {"batteries", list(power.batteries, battery_of)},
                {"a_year_kwh", range(power.a_year, [](Energy one) { return rounded(one.in(kWh), 10); })},
                {"idle", text_list(power.idle)},
                {"unfed", text_list(power.unfed)},
                {"cautions", cautions_value(power.cautions)}};
}

}  // namespace sightfall::file
