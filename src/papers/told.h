// SPDX-License-Identifier: GPL-3.0-or-later
// How papers word figures: no finer than the answers have them, with unit and range, in the units that the user asked
// for.
//   Checked  told_test.cpp, papers_test.cpp (every figure is one of the answers')
#pragma once
#include <string>
#include <vector>

#include "base/ranged.h"
#include "draw/document.h"
#include "loads/bearing.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::papers {

/// `12.3`; a minus that says nothing is left out.
std::string number(double value, int digits_after = 1);

/// `12.3 (11.0 to 14.2)`, or one number where the ends are told alike.
std::string ranged(const Ranged<double>& value, int digits_after = 1);

/// `203.5 deg`
std::string angle(Angle value);

/// How the plan's north lies to true and to magnetic north.
std::string north_words(const need::Project& project);

/// `12.3 m` or `40 ft 4 in`: along the ground, by a tape.
std::string taped_words(Length length, need::Units units);

/// `12.3 m east, 4.5 m north` or in feet.
std::string place_on_plan(geom::PlanPoint at, need::Units units);

/// `1/50 s` or `2 s`.
std::string shutter(Time value);

/// A date as it is given, or a line to write it on.
std::string or_line(const std::string& text);

/// `about: text`, or the text alone.
std::string caution_words(const need::Caution& caution);

/// A caution that is so of several; `about` has no name twice.
struct Said {
  std::vector<std::string> about;
  std::string text;
};

/// Each text once, with all whom it is about, in the order in which they are first said.
std::vector<Said> said_once(const std::vector<need::Caution>& cautions);

/// `one, another: text`
std::string caution_words(const Said& said);

/// The limit in words, or a dash where nothing holds back.
std::string limit_words(detail::Limit limit);

/// `met`, with a sign that is told without colour: `met`, `MARGINAL`, `MISSED`.
std::string verdict_word(need::Answer answer);

/// The same of a load: `met`, `MARGINAL`, `MISSED`, `UNKNOWN`.
std::string held_word(loads::Held held);

/// `1 camera` or `8 cameras`.
std::string counted(size_t count, const std::string& one);

/// `6 met, 1 marginal, 2 missed`
std::string counts(const std::vector<need::Verdict>& verdicts);

/// What a need asks, as a sentence.
std::string sentence(const need::Need& need);

/// At the foot of every page.
inline constexpr const char* kAdvice =
    "Predicted by Sightfall from what was entered; it advises and certifies nothing. Local codes and licensed trades "
    "decide. Test on the spot before you pay or drill.";

/// A document with its head and foot.
draw::Document titled(const need::Project& project, const std::string& title, const std::string& date);

}  // namespace sightfall::papers
