// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"
#include "serve/answers.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

/// Every run is laid: there is nothing to choose.
struct CablesRequest {};

void describe(file::Form& /*form*/, CablesRequest& /*request*/) {}

}  // namespace

Checked<file::Value> cables_answer(const need::Project& project, const file::Value& request) {
  const auto asks = read_request<CablesRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  return file::loads_value(loads::lay(project));
}

}  // namespace sightfall::serve
