// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/answer_values.h"
#include "file/loads_answer.h"
#include "file/loads_values.h"

namespace sightfall::file {
namespace {

Value metres_to_tenths(Length length) { return rounded(length.si(), 10); }

Value run_of(const loads::LaidRun& laid) {
  const site::Run& run = *laid.run;
  return Object{{"run", run.name},
                {"from", run.from},
                {"port", run.port ? Value{*run.port} : Value{}},
                {"to", run.to},
                {"cable", run.cable},
                {"instead", laid.instead != nullptr ? Value{laid.instead->name} : Value{}},
                {"length_m", range(laid.length, metres_to_tenths)},
                {"stated", run.length.has_value()},
                {"along", text_list(laid.along)},
                {"open_m", metres_to_tenths(laid.open)},
                {"outdoors", laid.outdoors},
                {"in_sun", laid.in_sun},
                {"between_buildings", laid.between_buildings},
                {"powered", laid.powered},
                {"reach", bearing_value(laid.reach, "m", metres_to_tenths)},
                {"held", Value{loads::in_words(laid.held)}},
                {"flags", text_list(laid.flags)},
                {"otherwise", laid.otherwise.empty() ? Value{} : Value{laid.otherwise}},
                {"line", list(laid.line, [](const geom::SitePoint& p) { return point(p); })}};
}

Value conduit_of(const loads::ConduitFill& conduit) {
  return Object{{"way", conduit.way},
                {"cables", conduit.cables},
                {"fill", bearing_value(conduit.fill, "share", share)},
                {"bends_deg", rounded(conduit.bends.in(units::deg), 10)}};
}

Value need_of(const loads::CableNeed& need) {
  const auto told = [](const std::optional<double>& price) { return price ? rounded(*price, 100) : Value{}; };
  return Object{{"cable", need.cable},
                {"length_m", range(need.length, metres_to_tenths)},
                {"runs", need.runs},
                {"price_per_m", told(need.metre_price)},
                {"price", told(need.price())}};
}

}  // namespace

Value loads_value(const loads::Cabling& cabling) {
  return Object{{"held", Value{loads::in_words(cabling.held)}},
                {"runs", list(cabling.runs, run_of)},
                {"conduits", list(cabling.conduits, conduit_of)},
                {"to_buy", list(cabling.to_buy, need_of)},
                {"cautions", cautions_value(cabling.cautions)}};
}

}  // namespace sightfall::file
