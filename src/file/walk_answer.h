// SPDX-License-Identifier: GPL-3.0-or-later
// A walk's figures as JSON and as a table with commas: the contract for scripts.
//   Schema   schema/walk_answer.schema.json
//   Checked  walk_answer_test.cpp; tests/case
#pragma once
#include <string>
#include <vector>

#include "file/json.h"
#include "video/facts.h"
#include "walk/film.h"

namespace sightfall::file {

/// A clip of the walk, and what its stream came to.
struct WalkClip {
  std::string file;
  bool capped = false;  ///< by the rate that the stream states
  video::StreamFacts facts;
};

/// `pictures` are the files of each mark's picture, in their order; fewer than marks when it was stopped.
struct WalkAnswer {
  const walk::WalkRequest* request = nullptr;
  const std::vector<walk::Mark>* marks = nullptr;
  std::vector<std::string> pictures;
  std::vector<WalkClip> clips;
};

std::string answer_text(const WalkAnswer& answer);
/// One mark's figures; `picture` is its picture's file, empty: none.
Value figures_of(const walk::Mark& mark, const std::string& picture = {});
std::string answer_table(const WalkAnswer& answer);

}  // namespace sightfall::file
