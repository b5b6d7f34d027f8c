// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/loads.h"

#include "loads/assumed.h"
#include "loads/first_to_fail.h"
#include "need/lit_project.h"

namespace sightfall::loads {

Held Loads::held() const {
  Held worst = cable.held;
  for (const Held one : {power.held, network.held, storage.held, mount.held}) worst = worse(worst, one);
  return worst;
}

Loads loads(const need::Project& project, const LoadsOptions& options, const Progress& progress) {
  return loads(need::LitProject{project}, options, progress);
}

Loads loads(const need::LitProject& lit, const LoadsOptions& options, const Progress& progress) {
  const need::Project& project = lit.project();
  Loads answer;
  progress.tell(0, "cables");
  answer.cable = lay(project);
  answer.power = power(project, answer.cable);
  answer.outage = outage(project, answer.cable, answer.power);
  if (const std::string words = in_words(answer.outage); !words.empty()) answer.power.cautions.push_back({{}, words});
  progress.tell(0.02, "rates");
  answer.network = network(project, answer.cable, stream_rates(lit, options.measured));
  answer.storage = storage(project, answer.cable, answer.network.rates);
  answer.network.first_to_fail = first_to_fail(project, answer);
  answer.mount = mounting(project);
  progress.tell(0.1, "what is overlooked");
  const Progress rest = progress.part(0.1, 1);
  if (options.overlook) answer.overlook = overlook(lit, options.mask_costs && !progress.stopped(), rest);
  answer.stopped = progress.stopped();
  answer.assumptions = assumptions_of(project, answer);
  return answer;
}

}  // namespace sightfall::loads
