// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall loads SITE`
#include <cstdio>
#include <utility>

#include "cli/loads_text.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/loads_answer.h"
#include "file/measured_file.h"
#include "file/project.h"

namespace sightfall::cli {

int run_loads(const Given& given) {
  const Checked<need::Project> project = file::load_project(given.text("SITE"));
  if (!project) return report(project.error());
  Checked<std::vector<loads::MeasuredRate>> measured = file::load_measured(given.names("--measured"), *project);
  if (!measured) return report(measured.error());
  loads::Loads answer;
  {
    const Watching watching;
    answer = loads::loads(*project, {std::move(*measured), true, !given.has("--no-masks")}, watching.progress());
  }
  const std::string text = given.has("--json") ? file::answer_text(*project, answer) : loads_text(*project, answer);
  std::fputs(text.c_str(), stdout);
  return answer.held() == loads::Held::kMet && !answer.stopped ? 0 : 1;
}

}  // namespace sightfall::cli
