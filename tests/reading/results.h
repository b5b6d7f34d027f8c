// SPDX-License-Identifier: GPL-3.0-or-later
// What the experiment found, as text for people and as a file for programs.
#pragma once
#include <span>
#include <string>

#include "analysis.h"

namespace sightfall::reading {

/// One reader's series, and the thresholds they are told for.
struct Finding {
  std::string subject, title, reader;
  std::span<const Series> all;
  size_t number = 0;  ///< of the reader
};

/// A line on the level that a series has come to.
std::string progress_line(const Series& so_far);

/// The causes' half points on the second half under thresholds that were fixed before.
std::string table_of(const Finding& finding, const std::string& title, const Thresholds& thresholds);

/// Everything counted, with the detail delivered under the nominal thresholds, as JSON.
std::string json_of(std::span<const Finding> findings);

/// Counts of an earlier run (json_of) put back into the series of the same causes; false where they do not fit.
bool counted_before(const std::string& json, const std::string& subject, const std::vector<Cause>& causes,
                    size_t readers, std::vector<Series>& all);

}  // namespace sightfall::reading
