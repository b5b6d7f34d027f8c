// SPDX-License-Identifier: GPL-3.0-or-later
// What every paper that names a run says of it: its verdict, its whole remedy, and the ports at its ends.
//   Checked  run_words_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "papers/job.h"

namespace sightfall::papers {

/// A port of a feed that a run takes.
struct PortTaken {
  const site::Run* run = nullptr;
  int port = 0;
  bool incoming = false;  ///< whether the run ends here
  bool proposed = false;  ///< the document numbers none: the lowest free one of the right kind
};

/// The ports of a feed that are taken: those of the document, then proposals, without power but for what is fed there.
/// A run that finds no free port has the port 0.
std::vector<PortTaken> ports_taken(const need::Project& project, const site::Feed& feed);

/// `7`, `7 (proposed)`, `none is free`, or `any free` where the document numbers no ports.
std::string port_words(const site::Feed& feed, const PortTaken& taken);

/// The port at the end of a run where it arrives; empty for a camera.
std::string port_there(const need::Project& project, const site::Run& run);

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

/// For who plugs it in: the cable where another than the document's is laid, and what is not met then; may be empty.
std::string port_remark(const Job& job, const site::Run& run);

/// Of a recorder with two networks, the one that a run to or from it is on: `the cameras' network` or `the house's
/// network`; empty of another feed.
std::string network_of_run(const Job& job, const site::Feed& feed, const site::Run& run);

/// Of both ends: `as stated, both ends`, `to buy, both ends` or `not needed`.
std::string surge_words(const loads::LaidRun& laid);

/// What is to be settled about a feed's power for all its ports, or what to look for when it is bought; may be empty.
std::string power_remark(const Job& job, const site::Feed& feed);

}  // namespace sightfall::papers
