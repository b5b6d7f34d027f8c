// SPDX-License-Identifier: GPL-3.0-or-later
// What the page asks to be worked out, by the functions that the command line calls (docs/wire.md).
//   In/Out   a valid project and the members of the request, without `changes` -> the answer's members; errors say what
//            is wrong with the request
//   Pure     reads no file, clock or global
//   Checked  answers_test.cpp
#pragma once
#include "base/progress.h"
#include "base/result.h"
#include "file/json.h"
#include "need/project.h"

namespace sightfall::serve {

/// A request to work something out: its own members, and what the document is to be changed in for this answer alone.
struct Asked {
  file::Value request;
  file::List changes;
};

/// Takes `changes` out of a request's body; a condition given as an object becomes one more change and its name.
Checked<Asked> asked(const file::Value& body);

/// Delivered detail over the plan: contours, what is seen, where a need is missed, tone.
Checked<file::Value> map_answer(const need::Project& project, const file::Value& request,
                                const Progress& progress = {});

/// What a camera shows of somebody at a place, with the figures.
Checked<file::Value> picture_answer(const need::Project& project, const file::Value& request,
                                    const Progress& progress = {});

/// The range card of a camera as it hangs, or of a sheet, with its curves.
Checked<file::Value> card_answer(const need::Project& project, const file::Value& request);

/// Every run of cable as it lies along the ways: the cables' part of `loads --json`.
Checked<file::Value> cables_answer(const need::Project& project, const file::Value& request);

/// What a way for cables along a line must say of the buildings that it leads into.
Checked<file::Value> way_answer(const need::Project& project, const file::Value& request);

/// What is handed over, as files.
Checked<file::Value> papers_answer(const need::Project& project, const file::Value& request,
                                   const Progress& progress = {});

/// The light of a day at the site, and the clock times of its conditions.
Checked<file::Value> day_answer(const need::Project& project, const std::string& date);

/// The site's triangles and the cameras' pyramids, or these alone.
Checked<file::Value> scene_answer(const need::Project& project, const file::Value& request);

/// The cut through the site along a camera's axis.
Checked<file::Value> section_answer(const need::Project& project, const file::Value& request);

/// What a site can be made of: the sheets that come with the program, level tables, words.
file::Value stock_answer();

}  // namespace sightfall::serve
