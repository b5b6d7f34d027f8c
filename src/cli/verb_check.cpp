// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall check SITE`
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "cli/check_maps.h"
#include "cli/check_text.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/answers.h"
#include "file/project.h"
#include "file/words.h"
#include "need/lit_project.h"

namespace sightfall::cli {
namespace {

/// A name that is not in the list, with what is.
template <class Named>
void unknown_names(const std::vector<std::string>& asked, const std::vector<Named>& known, const std::string& option,
                   Errors& errors) {
  std::vector<std::string_view> names;
  names.reserve(known.size());
  for (const Named& one : known) names.push_back(one.name);
  for (const std::string& name : asked)
    if (need::find_named(known, name) == nullptr)
      errors.push_back({ErrorKind::kReference,
                        fmt::format("found {}{}", file::in_quotes(name), file::suggestion(name, names)),
                        {"command line", "", option}});
}

bool judged_in(const need::Need& need, const std::vector<std::string>& conditions) {
  return need.conditions.empty() || conditions.empty() ||
         std::any_of(conditions.begin(), conditions.end(), [&](const std::string& name) {
           return std::find(need.conditions.begin(), need.conditions.end(), name) != need.conditions.end();
         });
}

/// What was asked for by name must be there, and not come to nothing.
Errors request_errors(const need::Project& project, const need::CheckOptions& options) {
  Errors errors;
  unknown_names(options.needs, project.needs, "--need", errors);
  unknown_names(options.conditions, project.conditions, "--when", errors);
  if (!errors.empty() || options.conditions.empty()) return errors;
  const bool something = std::any_of(project.needs.begin(), project.needs.end(), [&](const need::Need& need) {
    const auto& asked = options.needs;
    return (asked.empty() || std::find(asked.begin(), asked.end(), need.name) != asked.end()) &&
           judged_in(need, options.conditions);
  });
  if (!something)
    errors.push_back(
        {ErrorKind::kRequest, "no need asked for is judged in this condition", {"command line", "", "--when"}});
  return errors;
}

int status_of(const need::CheckResult& result, const file::Asks& asks) {
  const bool all_met = std::all_of(result.verdicts.begin(), result.verdicts.end(),
                                   [](const need::Verdict& v) { return v.answer == need::Answer::kMet; });
  const bool carried = !asks || std::all_of(asks->begin(), asks->end(),
                                            [](const loads::Ask& one) { return one.held == loads::Held::kMet; });
  return all_met && carried && !result.stopped ? 0 : 1;
}

}  // namespace

int run_check(const Given& given) {
  const Checked<need::Project> project = file::load_project(given.text("SITE"));
  if (!project) return report(project.error());
  const need::CheckOptions options{given.names("--need"), given.names("--when"), !given.has("--no-remedies")};
  if (const Errors errors = request_errors(*project, options); !errors.empty()) return report(errors);
  PictureFolder folder(given.text_or("--maps", ""));
  if (given.has("--maps"))
    if (auto opened = folder.open(); !opened) return report(opened.error());

  need::CheckResult result;
  file::Asks asks;
  Result<MapCount> drawn;
  {
    const Watching watching;
    const need::LitProject lit{*project};
    result = need::check(lit, options, watching.progress());
    const bool whole = options.needs.empty() && options.conditions.empty();
    if (whole && !result.stopped) asks = loads::asks_if_said(lit);
    if (given.has("--maps")) drawn = draw_maps(*project, result, folder, watching.progress());
  }
  if (!drawn) return report(drawn.error());
  folder.keep();
  const auto remedies = options.remedies ? Remedies::kLookedFor : Remedies::kNotLookedFor;
  const std::string text =
      given.has("--json") ? file::answer_text(*project, result, asks) : check_text(*project, result, remedies, asks);
  std::fputs(text.c_str(), stdout);
  if (drawn->drawn == drawn->all) return status_of(result, asks);
  std::fprintf(stderr, "stopped: %zu of %zu plans were drawn\n", drawn->drawn, drawn->all);
  return 1;
}

}  // namespace sightfall::cli
