// SPDX-License-Identifier: GPL-3.0-or-later
// Schedules: what to buy and what goes where, as tables of texts and numbers that a spreadsheet reckons with.
//   Checked  schedule_test.cpp, run_words_test.cpp, materials_test.cpp
#pragma once
#include <string>
#include <variant>
#include <vector>

#include "papers/job.h"

namespace sightfall::papers {

/// Nothing, a text or a number.
using Cell = std::variant<std::monostate, std::string, double>;

struct Schedule {
  std::string name;  ///< such as `cables`: of the file and of the sheet
  std::vector<std::string> columns;
  std::vector<std::vector<Cell>> rows;
};

/// As the other papers write it, so that a half is rounded to one side in all of them.
Cell rounded(double value, int digits);

/// Lengths as a schedule tells them, in the document's unit.
class LengthsIn {
 public:
  explicit LengthsIn(need::Units units) : feet_{units == need::Units::kFeet} {}

  std::string unit() const { return feet_ ? "ft" : "m"; }
  std::string column(const std::string& title) const { return title + ", " + unit(); }
  double of(Length length) const { return feet_ ? length.in(units::ft) : length.si(); }
  Cell cell(Length length, int digits) const { return rounded(of(length), digits); }
  /// What one unit costs of something that is priced by the metre.
  double price_each(double metre_price) const { return metre_price / of(Length{1}); }

 private:
  bool feet_;
};

Schedule cameras_of(const Job& job);
Schedule cables_of(const Job& job);
Schedule ports_of(const Job& job);
Schedule materials_of(const Job& job);
/// All four.
std::vector<Schedule> schedules(const Job& job);

/// As comma-separated values (RFC 4180), UTF-8. A text that a spreadsheet would take for a formula gets an apostrophe
/// before it.
std::string csv_of(const Schedule& schedule);

}  // namespace sightfall::papers
