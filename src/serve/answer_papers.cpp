// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>
#include <utility>

#include "file/clock.h"
#include "papers/date.h"
#include "papers/papers.h"
#include "serve/answers.h"
#include "serve/base64.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

using file::kOptional;
using file::List;
using file::Object;
using file::Value;

constexpr std::array<std::string_view, 2> kPapers{"a4", "letter"};  // in the order of draw::PaperSize

struct PapersRequest {
  std::string date;
  std::optional<std::string> by, network, id;
  draw::PaperSize paper = draw::PaperSize::kA4;
  bool pictures = true, masks = true;
};

void describe(file::Form& form, PapersRequest& request) {
  form.date({"date", kOptional, "on the papers; a line to write it on when absent"}, file::kFirstYear, file::kLastYear,
            request.date);
  form.text({"by", kOptional, "who hands over; a line when absent"}, request.by);
  form.text({"network", kOptional, "the cameras' own network, such as 10.20.30.0/24"}, request.network);
  form.choice({"paper", "a4", "size of the paper"}, kPapers, request.paper);
  form.flag({"pictures", true, "whether with pictures of what cameras will show"}, request.pictures);
  form.flag({"masks", true, "whether what masks cost the needs is worked out, which is most of the work"},
            request.masks);
  form.text({"id", kOptional, "what progress calls it"}, request.id);
}

std::string_view type_of(const std::string& name) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kTypes{
      {{".pdf", "application/pdf"},
       {".svg", "image/svg+xml"},
       {".dxf", "image/vnd.dxf"},
       {".xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"},
       {".csv", "text/csv; charset=utf-8"}}};
  for (const auto& [ending, type] : kTypes)
    if (name.ends_with(ending)) return type;
  return "application/octet-stream";
}

std::string what_for(const std::string& name) {
  for (const papers::PaperName& one : papers::paper_names(false))
    if (one.file == name) return one.what;
  return {};
}

}  // namespace

Checked<Value> papers_answer(const need::Project& project, const Value& request, const Progress& progress) {
  const auto asks = read_request<PapersRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  papers::Asked asked;
  asked.date = asks->date, asked.by = asks->by.value_or("");
  asked.paper = asks->paper, asked.pictures = asks->pictures, asked.mask_costs = asks->masks;
  if (!asked.date.empty() && !papers::date_of(asked.date))
    return refused(ErrorKind::kRequest, "date",
                   "found " + file::in_quotes(asked.date) + "; allowed is a day such as 2026-11-27");
  if (asks->network) {
    const auto network = network_of(*asks->network);
    if (!network) return refused(ErrorKind::kRequest, "network", network.error().text);
    asked.network = *network;
  }
  const auto job = papers::gathered(project, nullptr, asked, progress.part(0, 0.8));
  if (!job) return refused(ErrorKind::kRequest, "network", job.error().text);
  List files;
  const auto written = papers::write_papers(
      *job,
      [&](const std::string& name, std::string_view bytes) -> Result<void> {
        files.push_back(Object{{"file", name},
                               {"what", what_for(name)},
                               {"type", std::string(type_of(name))},
                               {"content", base64(bytes)}});
        return {};
      },
      progress.part(0.8, 1));
  if (!written) return tl::make_unexpected(Errors{written.error()});
  return Value{Object{{"files", std::move(files)},
                      {"without_shape", file::List(job->without_shape.begin(), job->without_shape.end())}}};
}

}  // namespace sightfall::serve
