// SPDX-License-Identifier: GPL-3.0-or-later
// A sign to put up, and what law asks about pictures of others: facts with their sources, no advice.
//   Source   Regulation (EU) 2016/679; European Data Protection Board, Guidelines 3/2019 on processing of personal data
//            through video devices; both from memory
#include <fmt/format.h>

#include "draw/shape.h"
#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using draw::Heading;
using draw::PagePoint;
using draw::Paragraph;

constexpr draw::PageSize kSign{900, 520};

/// A camera on its arm, seen from the side, with what it takes in.
void draw_camera(draw::Canvas& canvas, PagePoint at) {
  const auto ring = [&](std::vector<PagePoint> points) {
    for (PagePoint& point : points) point = at + point;
    return draw::ring_shape(points);
  };
  canvas.stroke(ring({{-120, -150}, {-120, -40}}), {.width = 14});
  canvas.fill(ring({{-150, -60}, {20, -20}, {8, 40}, {-162, 0}}), draw::kInk);
  canvas.fill(ring({{26, -12}, {58, -4}, {50, 38}, {16, 30}}), draw::kInk);
  canvas.stroke(ring({{70, 10}, {130, -30}, {110, 110}}), {.width = 7});
}

void draw_sign(draw::Canvas& canvas, const std::string& name, const std::string& days) {
  canvas.stroke(draw::rectangle({6, 6}, {kSign.width - 6.0, kSign.height - 6.0}), {.width = 8});
  draw_camera(canvas, {190, 250});
  canvas.letter_from("Cameras record here", {.size = 44, .bold = true, .wrap = 520}, {350, 60});
  canvas.letter_from(name, {.size = 26, .wrap = 520}, {350, 170});
  double top = 250;
  for (const std::string& line :
       {std::string{"Responsible: ______________________________"},
        std::string{"Reach us: ________________________________"},
        std::string{"Why: _____________________________________"}, "Kept for: " + days + " days at most",
        std::string{"Your rights and more: ______________________"}}) {
    canvas.letter_from(line, {.size = 21}, {350, top});
    top += 48;
  }
}

std::string days_of(const Job& job) {
  const auto& most = job.project().keeping.most;
  return most ? number(most->in(units::day), 0) : "____________";
}

}  // namespace

draw::Document signs(const Job& job) {
  draw::Document document = titled(job.project(), "signs and data protection", job.asked.date);
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, "A sign for each way in"});
  blocks.emplace_back(draw::Figures{
      {{kSign,
        [name = job.project().name, days = days_of(job)](draw::Canvas& canvas) { draw_sign(canvas, name, days); },
        "A sign for whoever comes in: cameras record here, who is responsible, how to reach them, why, "
        "how long pictures are kept, where rights are explained. Put it up where people read it before "
        "they are in the picture.",
        "A camera on its arm beside the words of the sign, with lines to be filled by hand."}},
      300});
  blocks.emplace_back(Heading{1, "Pictures of others: facts with their sources"});
  blocks.emplace_back(
      Paragraph{"No legal advice. What holds where you are, the law there and its authorities say; sources below are "
                "cited from memory."});
  blocks.emplace_back(draw::Points{
      {("In the European Union, what a natural person records for a purely personal or household activity is outside "
        "the General Data Protection Regulation (Regulation (EU) 2016/679, Article 2(2)(c))."),
       ("A camera at a home that also records a public way is not purely personal or household (Court of Justice of "
        "the "
        "European Union, case C-212/13, 11 December 2014)."),
       ("Whoever records others otherwise needs a lawful basis, such as a legitimate interest that outweighs theirs "
        "(Article 6(1)(f)), and records no more than the purpose asks for (Article 5(1)(c))."),
       ("People are told before they are recorded: who is responsible, why, their rights, where to read more (Articles "
        "12 and 13; European Data Protection Board, Guidelines 3/2019, first layer on a sign)."),
       ("Pictures are kept no longer than the purpose asks for (Article 5(1)(e)); the Guidelines say that damage is "
        "mostly noticed within one or two days, and that more than 72 hours asks for more reasons."),
       "Whoever is in a picture may ask for a copy (Article 15). Whoever records keeps pictures safe (Article 32).",
       "The United Kingdom has kept these articles as its own (UK GDPR).",
       ("Other places have other rules, some of them on sound, on signs in a given form, or on permission of "
        "neighbours.")}});
  blocks.emplace_back(Paragraph{
      job.here.loads.overlook.things.empty()
          ? "In this job: nothing of others that was entered shows in a picture."
          : fmt::format("In this job {} things of others show; the report lists each with the mask that removes it.",
                        job.here.loads.overlook.things.size())});
  if (job.project().keeping.most)
    blocks.emplace_back(
        Paragraph{fmt::format("Pictures are kept {} days at most: {}",
                              number(job.project().keeping.most->in(units::day), 0), job.project().keeping.reason)});
  return document;
}

}  // namespace sightfall::papers
