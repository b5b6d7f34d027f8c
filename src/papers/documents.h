// SPDX-License-Identifier: GPL-3.0-or-later
// The texts that are handed over, each a document of its own. All they tell comes from the job.
//   Checked  papers_test.cpp
#pragma once
#include "draw/document.h"
#include "draw/site_plan.h"
#include "papers/job.h"

namespace sightfall::papers {

/// The whole job: needs and verdicts, each camera with what it will show, loads, assumptions, cautions.
draw::Document report(const Job& job);
/// One page for the owner, in plain words.
draw::Document owner_summary(const Job& job);
/// What is typed into each camera and each other device; addresses; what keeps strangers out.
draw::Document settings_sheets(const Job& job);
/// Each camera with what hangs and aims it; the walk test with boxes; bars to hold up; a page to sign.
draw::Document field_sheet(const Job& job);
/// What is looked after, and when.
draw::Document upkeep(const Job& job);
/// Signs to put up, and what law asks about pictures of others: facts with their sources, no advice.
draw::Document signs(const Job& job);
/// Two sites side by side, with what each met need costs. The job has another.
draw::Document options(const Job& job);

/// The builder's plan of the job.
draw::SitePlan plan_of(const Job& job);

/// Parts of the report.
void add_cameras(const Job& job, std::vector<draw::Block>& blocks);
void add_light_relied_on(const Job& job, const CameraPart& part, std::vector<draw::Block>& blocks);
/// Needs whose verdicts count on a lamp's light, with commas between; empty: none does.
std::string relying_on(const Job& job, const std::string& lamp);
void add_loads(const Job& job, std::vector<draw::Block>& blocks);

}  // namespace sightfall::papers
