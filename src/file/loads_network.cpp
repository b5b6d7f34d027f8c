// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"
#include "file/loads_values.h"

namespace sightfall::file {
namespace {

using namespace units;

Value mbps(DataRate rate) { return rounded(rate.in(Mbit / s), 1000); }

Value light_of(const loads::RateInLight& light) {
  return Object{{"condition", light.condition},
                {"noise_levels", rounded(light.noise, 100)},
                {"rate_mbps", range(light.rate, mbps)},
                {"at_ceiling", light.at_ceiling},
                {"measured", light.measured}};
}

Value control_of(const camera::Stream& stream) {
  return Value{stream.control == camera::RateControl::kConstant ? "constant"
               : stream.control == camera::RateControl::kCapped ? "capped"
                                                                : "free"};
}

Value rate_of(const loads::StreamRate& rate) {
  return Object{{"camera", rate.camera},
                {"codec", Value{rate.stream.codec == camera::Codec::kH264 ? "H.264" : "H.265"}},
                {"control", control_of(rate.stream)},
                {"ceiling_mbps", rate.stream.rate ? mbps(*rate.stream.rate) : Value{}},
                {"assumed", rate.assumed},
                {"day", light_of(rate.day)},
                {"night", light_of(rate.night)}};
}

Value link_of(const loads::LinkLoad& link) {
  return Object{{"run", text_or_null(link.run)},
                {"from", link.from},
                {"to", text_or_null(link.to)},
                {"streams", link.streams},
                {"rate", bearing_value(link.rate, "mbps", mbps)},
                {"assumed", text_list(link.assumed)}};
}

Value intake_of(const loads::IntakeLoad& intake) {
  return Object{
      {"recorder", intake.recorder}, {"streams", intake.streams}, {"rate", bearing_value(intake.rate, "mbps", mbps)}};
}

Value ports_of(const loads::PortsUse& use) {
  return Object{{"feed", use.feed},
                {"taken", use.taken},
                {"ports", use.ports},
                {"fed", use.fed},
                {"powered", use.powered},
                {"held", Value{loads::in_words(use.held)}},
                {"remedy", text_or_null(use.remedy)}};
}

}  // namespace

Value loads_value(const loads::NetworkLoads& network) {
  return Object{{"held", Value{loads::in_words(network.held)}}, {"rates", list(network.rates, rate_of)},
                {"links", list(network.links, link_of)},        {"intakes", list(network.intakes, intake_of)},
                {"ports", list(network.ports, ports_of)},       {"ways_out", list(network.ways_out, link_of)},
                {"unrecorded", text_list(network.unrecorded)},  {"first_to_fail", text_or_null(network.first_to_fail)},
                {"cautions", cautions_value(network.cautions)}};
}

}  // namespace sightfall::file
