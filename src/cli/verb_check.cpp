// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall check SITE`
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "cli/check_text.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/answers.h"
#include "file/atomic.h"
#include "file/project.h"
#include "need/map.h"
#include "papers/plan_map.h"

namespace sightfall::cli {
namespace {

/// A name that is not in the list, with what is.
template <class Named>
void unknown_names(const std::vector<std::string>& asked, const std::vector<Named>& known, const std::string& option,
                   Errors& errors) {
  for (const std::string& name : asked) {
    if (need::find_named(known, name) != nullptr) continue;
    std::string allowed;
    for (const Named& one : known) allowed += (allowed.empty() ? "\"" : ", \"") + one.name + "\"";
    errors.push_back(
        {ErrorKind::kReference, "found \"" + name + "\"; allowed: " + allowed, {"command line", "", option}});
  }
}

/// A need's name as a file's: letters and digits, the rest a dash; numbered, so that two never meet.
std::string file_name(size_t number, const std::string& name) {
  std::string slug;
  for (const char c : name)
    if (std::isalnum(static_cast<unsigned char>(c)) != 0)
      slug += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    else if (!slug.empty() && slug.back() != '-')
      slug += '-';
  while (!slug.empty() && slug.back() == '-') slug.pop_back();
  return fmt::format("{:02d}-{}", number, slug.empty() ? "need" : slug);
}

Result<void> make_folder(const std::string& folder) {
  std::error_code code;
  std::filesystem::create_directories(folder, code);
  if (code || !std::filesystem::is_directory(folder))
    return failure(ErrorKind::kWrite,
                   "cannot make the folder: " + (code ? code.message() : "something else has its name"),
                   {folder, "", ""});
  return {};
}

Result<void> draw_need(const need::Project& project, const need::Verdict& verdict, const std::string& stem,
                       const Progress& progress) {
  const need::Need& need = *need::find_named(project.needs, verdict.need);
  const std::string condition = verdict.worst ? verdict.worst->condition : project.conditions.front().name;
  constexpr int kCells = 60000;
  const need::DetailMap map = need::detail_map(project, need.place, condition, kCells, progress);
  const papers::PlanMap plan{&project, &map, &verdict, verdict.required, project.name,
                             fmt::format("{} - {}", need.name, condition)};
  auto pictures = papers::draw_plan_map(plan);
  if (!pictures) return tl::make_unexpected(pictures.error());
  if (auto written = file::write_atomically(stem + ".svg", pictures->svg); !written) return written;
  return file::write_atomically(stem + ".png", pictures->png);
}

Result<void> draw_maps(const need::Project& project, const need::CheckResult& result, const std::string& folder,
                       const Progress& progress) {
  for (size_t i = 0; i < result.verdicts.size() && !progress.stopped(); ++i) {
    progress.tell(static_cast<double>(i) / static_cast<double>(result.verdicts.size()), "drawing maps");
    const std::string stem = folder + "/" + file_name(i + 1, result.verdicts[i].need);
    if (auto drawn = draw_need(project, result.verdicts[i], stem, progress); !drawn) return drawn;
  }
  return {};
}

}  // namespace

int run_check(const Given& given) {
  const Checked<need::Project> project = file::load_project(given.text("SITE"));
  if (!project) return report(project.error());
  need::CheckOptions options{given.names("--need"), given.names("--when"), !given.has("--no-remedies")};
  Errors errors;
  unknown_names(options.needs, project->needs, "--need", errors);
  unknown_names(options.conditions, project->conditions, "--when", errors);
  if (!errors.empty()) return report(errors);
  // A folder that cannot be made is told before the work, not after it.
  if (given.has("--maps"))
    if (auto made = make_folder(given.text("--maps")); !made) return report(made.error());

  need::CheckResult result;
  Result<void> drawn;
  {
    const Watching watching;
    result = need::check(*project, options, watching.progress());
    if (given.has("--maps")) drawn = draw_maps(*project, result, given.text("--maps"), watching.progress());
  }
  const std::string text = given.has("--json") ? file::answer_text(*project, result) : check_text(*project, result);
  std::fputs(text.c_str(), stdout);
  if (!drawn) return report(drawn.error());
  const bool all_met = std::all_of(result.verdicts.begin(), result.verdicts.end(),
                                   [](const need::Verdict& v) { return v.answer == need::Answer::kMet; });
  return all_met && !result.stopped ? 0 : 1;
}

}  // namespace sightfall::cli
