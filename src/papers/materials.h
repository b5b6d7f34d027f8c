// SPDX-License-Identifier: GPL-3.0-or-later
// What is bought: the parts that materials_of is put together from. Every quantity follows from the project; what does
// not is a row without one, to be decided on the spot.
//   Source   ends of cables: an outlet or panel port with a cord where a run starts or ends at a device, a plug at a
//            camera (a modular plug terminated link, TIA-568, from memory). What holds and marks cables: common
//            practice, no published source
//   Checked  materials_test.cpp
#pragma once
#include <optional>
#include <string>

#include "papers/schedule.h"

namespace sightfall::papers {

/// Something to buy.
struct Material {
  std::string kind, what;
  std::string ask;  ///< what to look for on its sheet
  std::optional<double> price;
  std::string where;  ///< for what, or what to settle first
};

inline constexpr const char* kOnTheSpot = "how many or how much: to be decided on the spot";

/// Counts things that are alike together, in the order in which they come first.
void count(Schedule& all, const Material& one, double pieces = 1, const std::string& unit = "pieces");
/// What is counted by its length; `how` such as `at most`. Its price is for a metre.
void count_length(const Job& job, Schedule& all, const Material& one, Length length, const std::string& how);
/// What is wanted, though the project does not tell how much of it.
void add_uncounted(Schedule& all, const Material& one);

/// Switches, recorders and the rest, with what to ask for when they are bought.
void buy_feeds(const Job& job, Schedule& all);
/// A row for each run, with what is in all to be bought of each kind.
void buy_cable(const Job& job, Schedule& all);
/// Plugs, outlets, cords, fibre ends, modules, injectors, surge protectors and labels.
void buy_ends(const Job& job, Schedule& all);
/// Conduits, trays and trenches by the metre, and what holds cable along them.
void buy_ways(const Job& job, Schedule& all);

}  // namespace sightfall::papers
