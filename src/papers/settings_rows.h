// SPDX-License-Identifier: GPL-3.0-or-later
// What the settings of cameras and of other devices have in common.
//   Checked  papers_test.cpp
#pragma once
#include <string>
#include <vector>

#include "papers/job.h"

namespace sightfall::papers {

/// Setting, value, why.
using SettingRows = std::vector<std::vector<std::string>>;

/// With a box to tick in each row.
draw::Table settings_table(SettingRows rows);

/// The first of the recorders, or of the routers: what gives the time.
std::string time_source(const Job& job);

/// `on motion`
std::string recorded_words(const camera::Recording& recording);

/// The address plan, and who reaches what.
void add_network(const Job& job, draw::Document& document);

/// A page for each device that has an address and is no camera.
void add_devices(const Job& job, draw::Document& document);

}  // namespace sightfall::papers
