// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/papers.h"

#include <fmt/format.h>

#include <optional>
#include <utility>

#include "draw/files.h"
#include "import/dxf.h"
#include "need/in_parallel.h"
#include "papers/documents.h"
#include "papers/schedule.h"
#include "papers/site_dxf.h"
#include "papers/spreadsheet.h"

namespace sightfall::papers {
namespace {

struct Paper {
  PaperName name;
  std::function<Result<std::string>(const Job&)> bytes;
};

Paper text(const char* file, const char* what, draw::Document (*of)(const Job&)) {
  return {{file, what}, [of](const Job& job) { return draw::drawn_document(of(job), job.asked.paper); }};
}

/// A3, or tabloid: what plans are printed on beside A4 or Letter.
draw::PageSize plan_page(draw::PaperSize paper) {
  return paper == draw::PaperSize::kA4 ? draw::PageSize{1191, 842} : draw::PageSize{1224, 792};
}

Result<std::string> plan_pdf(const Job& job) {
  const draw::PageSize page = plan_page(job.asked.paper);
  const draw::PlanSheet sheet = draw::site_sheet(plan_of(job), page);
  const draw::Drawing whole = [&](draw::Canvas& canvas) {
    canvas.figure(draw::heard(sheet), [&] { canvas.placed({0, 0}, draw::kSheetUnit, [&] { sheet.drawing(canvas); }); });
  };
  return draw::drawn_pdf(page, {job.project().name + ": plan", "plan", job.asked.date}, {whole}, {});
}

Result<std::string> plan_svg(const Job& job) {
  const draw::PageSize page = plan_page(job.asked.paper);
  const draw::PlanSheet sheet = draw::site_sheet(plan_of(job), page);
  std::string words;
  for (const std::string& one : sheet.words) words += one + "\n";
  const draw::Drawing whole = [&](draw::Canvas& canvas) {
    canvas.placed({0, 0}, draw::kSheetUnit, [&] { sheet.drawing(canvas); });
  };
  return draw::drawn_svg(page, job.project().name + ": plan", words, whole, draw::SvgUnit::kPoint);
}

Paper csv(const char* file, const char* what, Schedule (*of)(const Job&)) {
  return {{file, what}, [of](const Job& job) { return Result<std::string>{csv_of(of(job))}; }};
}

std::vector<Paper> papers_of(bool other) {
  std::vector<Paper> all{
      text("report.pdf", "the whole job: verdicts, each camera, loads, what was assumed", report),
      text("owner.pdf", "one page for the owner", owner_summary),
      text("settings.pdf", "what is typed into each camera and device, addresses, keeping strangers out",
           settings_sheets),
      text("field.pdf", "each camera to hang and aim, the walk test with boxes, bars, a page to sign", field_sheet),
      text("upkeep.pdf", "what is looked after, and when", upkeep),
      text("signs.pdf", "a sign to put up, and facts on data protection", signs),
      {{"plan.pdf", "the builder's plan at a true scale"}, plan_pdf},
      {{"plan.svg", "the same, to look at"}, plan_svg},
      {{"plan.dxf", "the same for CAD, metres"}, [](const Job& job) { return import::dxf_of(site_dxf(job)); }},
      {{"schedules.xlsx", "cameras, cables, ports, materials"},
       [](const Job& job) {
         return spreadsheet_of(schedules(job), job.project().name, job.asked.date, job.asked.paper);
       }},
      csv("cameras.csv", "the same, one by one", cameras_of),
      csv("cables.csv", "", cables_of),
      csv("ports.csv", "", ports_of),
      csv("materials.csv", "", materials_of)};
  if (other) all.insert(all.begin() + 1, text("options.pdf", "two options side by side", options));
  return all;
}

}  // namespace

std::vector<PaperName> paper_names(bool other) {
  std::vector<PaperName> names;
  for (const Paper& paper : papers_of(other)) names.push_back(paper.name);
  return names;
}

Result<void> write_papers(const Job& job, const Write& write, const Progress& progress) {
  const std::vector<Paper> all = papers_of(job.other.has_value());
  std::vector<std::optional<Result<std::string>>> bytes(all.size());
  need::in_parallel(all.size(), progress, "drawing papers", [&](size_t i) { bytes[i] = all[i].bytes(job); });
  for (size_t i = 0; i < all.size(); ++i) {
    if (!bytes[i]) continue;  // stopped before
    if (!*bytes[i]) return tl::make_unexpected(bytes[i]->error());
    if (auto written = write(all[i].name.file, **bytes[i]); !written) return written;
  }
  return {};
}

}  // namespace sightfall::papers
