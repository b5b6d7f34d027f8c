// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/answers.h"
#include "serve/request.h"
#include "site/way_in_building.h"

namespace sightfall::serve {
namespace {

struct WayRequest {
  std::vector<geom::PlanPoint> line;
};

void describe(file::Form& form, WayRequest& request) {
  form.points({"line", file::kRequired, "as it is drawn"}, 2, request.line);
}

}  // namespace

Checked<file::Value> way_answer(const need::Project& project, const file::Value& request) {
  const auto asks = read_request<WayRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  const auto entered = site::building_entered(asks->line, project.site.solids);
  return file::Value{file::Object{{"building", entered ? file::Value{entered->building->name} : file::Value{}},
                                  {"indoors", entered && entered->whole},
                                  {"through_buildings", entered && !entered->whole}}};
}

}  // namespace sightfall::serve
