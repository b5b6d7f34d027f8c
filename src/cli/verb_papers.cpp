// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall papers SITE --out DIR`
#include <fmt/format.h>

#include <cstdio>

#include "cli/check_maps.h"
#include "cli/layout.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/project.h"
#include "file/words.h"
#include "papers/date.h"
#include "papers/papers.h"

namespace sightfall::cli {
namespace {

Checked<papers::Asked> asked_for(const Given& given) {
  papers::Asked asked;
  Errors errors;
  asked.date = given.text_or("--date", "");
  if (!asked.date.empty() && !papers::date_of(asked.date))
    errors.push_back(request_error(
        "--date", fmt::format("found {}; allowed is a day such as 2026-11-27", file::in_quotes(asked.date))));
  asked.by = given.text_or("--by", "");
  const std::string paper = given.text_or("--paper", "a4");
  if (paper != "a4" && paper != "letter")
    errors.push_back(
        request_error("--paper", fmt::format(R"(found {}; allowed: "a4", "letter")", file::in_quotes(paper))));
  asked.paper = paper == "letter" ? draw::PaperSize::kLetter : draw::PaperSize::kA4;
  if (given.has("--network")) {
    const auto network = network_of(given.text("--network"));
    if (network)
      asked.network = *network;
    else
      errors.push_back(request_error("--network", network.error().text));
  }
  asked.pictures = !given.has("--no-pictures");
  asked.mask_costs = !given.has("--no-masks");
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  return asked;
}

void warn_of_letters(const papers::Job& job) {
  for (const std::string& text : job.without_shape)
    std::fprintf(stderr,
                 "warning: %s has letters that no typeface here has; they show as boxes. Install one, such as those of "
                 "fonts-noto\n",
                 file::in_quotes(text).c_str());
}

std::string told(const papers::Job& job, const std::string& folder, size_t written) {
  std::vector<Row> rows;
  for (const papers::PaperName& name : papers::paper_names(job.other.has_value()))
    if (rows.size() < written) rows.push_back({"  " + folder + "/" + name.file, name.what});
  return fmt::format("{}\n\n", job.project().name) + table(rows) + "\n" +
         wrapped(
             "They advise and certify nothing: local codes and licensed trades decide. Test on the spot before you pay "
             "or drill.",
             0);
}

}  // namespace

int run_papers(const Given& given) {
  const Checked<papers::Asked> asked = asked_for(given);
  if (!asked) return report(asked.error());
  const Checked<need::Project> project = file::load_project(given.text("SITE"));
  if (!project) return report(project.error());
  std::optional<need::Project> other;
  if (given.has("--against")) {
    Checked<need::Project> loaded = file::load_project(given.text("--against"));
    if (!loaded) return report(loaded.error());
    other = std::move(*loaded);
  }
  PictureFolder folder(given.text("--out"));
  if (auto opened = folder.open(); !opened) return report(opened.error());
  Result<papers::Job> job;
  Result<void> written;
  size_t count = 0;
  {
    const Watching watching;
    const Progress& progress = watching.progress();
    job = papers::gathered(*project, other ? &*other : nullptr, *asked, progress.part(0, 0.8));
    if (!job) {
      written = tl::make_unexpected(job.error());
    } else {
      const Progress writing{progress.part(0.8, 1).tell, job->stopped ? nullptr : progress.stop};
      written = papers::write_papers(
          *job,
          [&](const std::string& name, std::string_view bytes) {
            ++count;
            return folder.write(name, bytes);
          },
          writing);
    }
  }
  if (!written) return report(written.error());
  folder.keep();
  warn_of_letters(*job);
  std::fputs(told(*job, given.text("--out"), count).c_str(), stdout);
  const bool whole = !job->stopped && count == papers::paper_names(job->other.has_value()).size();
  if (!whole) std::fprintf(stderr, "stopped: the papers tell what had been worked out\n");
  return whole ? 0 : 1;
}

}  // namespace sightfall::cli
