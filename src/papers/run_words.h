// SPDX-License-Identifier: GPL-3.0-or-later
// What every paper that names a run says of it: its verdict, its whole remedy, and the ports at its ends.
//   Checked  run_words_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/ports.h"
#include "papers/job.h"

namespace sightfall::papers {

/// Of a camera or a device that no cable reaches.
inline constexpr const char* kNoRun = "no run to it is drawn";

using loads::ports_taken;
using loads::PortTaken;

/// `7`, `7 (proposed)`, `none is free`, or `any free` where the document numbers no ports.
std::string port_words(const site::Feed& feed, const PortTaken& taken);

/// By their numbers; what found no port stands last.
void put_in_port_order(std::vector<PortTaken>& taken);

/// The port at the end of a run where it arrives; empty for a camera.
std::string port_there(const need::Project& project, const site::Run& run);

/// What goes over the run from a port that gives power, or null.
const loads::PortLoad* port_load(const Job& job, const std::string& run);

/// The run as it is laid.
const loads::LaidRun& laid_of(const Job& job, const std::string& run);

/// What mends the run and what is so of it: the remedy of its length, then its flags. What would do as well is told in
/// the cable schedule alone.
std::string remarks_of(const loads::LaidRun& laid);

/// `fibre ..., in place of Cat6 ...`, or the run's own kind of cable.
std::string cable_words(const loads::LaidRun& laid);

/// Whether what hangs at its end takes its power from the port that it starts at, by the cable that is to be laid.
bool fed_as_laid(const loads::LaidRun& laid);

/// The worst of the run, of the power over it and of what it carries, with what is to be done.
struct RunVerdict {
  loads::Held held = loads::Held::kMet;
  std::string remarks;
};
RunVerdict verdict_of(const Job& job, const site::Run& run);

/// The same of the cable alone and, where a supply feeds a device by it, of that.
RunVerdict cable_verdict(const Job& job, const loads::LaidRun& laid);

/// Whether something has to be settled before anything is bought for the run: what to lay, or how a supply feeds what
/// hangs at its end.
bool is_open(const Job& job, const loads::LaidRun& laid);

/// For who plugs it in: the cable where another than the document's is laid, and what is not met then; may be empty.
std::string port_remark(const Job& job, const site::Run& run);

/// Of a recorder with two networks, the one that a run to or from it is on: `the cameras' network` or `the house's
/// network`; empty of another feed.
std::string network_of_run(const Job& job, const site::Feed& feed, const site::Run& run);

/// The names of the runs that lie in a way.
std::vector<std::string> runs_along(const Job& job, const site::Way& way);

/// Protection of a run's ends against surges.
enum class Surge { kNotNeeded, kAdvised, kStated };
Surge surge_of(const loads::LaidRun& laid);

/// Of both ends: `as stated, both ends`, `advised, both ends` or `not needed`.
std::string surge_words(const loads::LaidRun& laid);

/// What is to be settled about a feed's power for all its ports, or what to look for when it is bought; may be empty.
std::string power_remark(const Job& job, const site::Feed& feed);

}  // namespace sightfall::papers
