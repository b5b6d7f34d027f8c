// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/clock_rule.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <chrono>

namespace sightfall::file {
namespace {

using namespace std::chrono;

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

/// Takes the rule apart from the left; after the first thing that is not as it should be, nothing is good.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : rest_{text} {}

  bool good() const { return good_; }
  bool done() const { return rest_.empty(); }
  bool next_is(char c) const { return !rest_.empty() && rest_.front() == c; }
  bool take(char c) {
    if (!next_is(c)) return false;
    rest_.remove_prefix(1);
    return true;
  }
  void need(char c) { good_ &= take(c); }

  /// Letters, or anything between < and >.
  void skip_name() {
    const bool quoted = next_is('<');
    const size_t end =
        quoted ? rest_.find('>')
               : static_cast<size_t>(std::find_if_not(rest_.begin(), rest_.end(), is_letter) - rest_.begin());
    good_ &= end != std::string_view::npos && end > 0;
    rest_.remove_prefix(good_ ? end + (quoted ? 1 : 0) : 0);
  }

  int whole(int lowest, int highest) {
    int number = lowest - 1;
    const auto read = std::from_chars(rest_.data(), rest_.data() + rest_.size(), number);
    good_ &= read.ec == std::errc{} && number >= lowest && number <= highest;
    rest_.remove_prefix(static_cast<size_t>(read.ptr - rest_.data()));
    return good_ ? number : lowest;
  }

  /// Hours, minutes and seconds with a sign, as seconds.
  long time() {
    constexpr int kMostHours = 167;
    const bool negative = take('-');
    if (!negative) take('+');
    long seconds = 3600L * whole(0, kMostHours);
    if (take(':')) seconds += 60L * whole(0, 59);
    if (take(':')) seconds += whole(0, 59);
    return negative ? -seconds : seconds;
  }

  YearlyChange change() {
    YearlyChange change;
    need(',');
    need('M');
    change.month = whole(1, 12);
    need('.');
    change.week = whole(1, 5);
    need('.');
    change.weekday = whole(0, 6);
    if (take('/')) change.seconds = time();
    return change;
  }

 private:
  std::string_view rest_;
  bool good_ = true;
};

/// By the clock before the change, in seconds since 1970.
long clock_at(const YearlyChange& change, year of) {
  const auto month_of = of / month(static_cast<unsigned>(change.month));
  const weekday day(static_cast<unsigned>(change.weekday));
  constexpr int kLastWeek = 5;
  const sys_days on = change.week == kLastWeek ? sys_days(month_of / day[last])
                                               : sys_days(month_of / day[static_cast<unsigned>(change.week)]);
  return sys_seconds(on).time_since_epoch().count() + change.seconds;
}

}  // namespace

long ClockRule::offset_at(long instant) const {
  if (summer == standard) return standard;
  const year_month_day local(floor<days>(sys_seconds(seconds(instant + standard))));
  const long from = clock_at(begin, local.year()) - standard, to = clock_at(end, local.year()) - summer;
  const bool in_summer = from < to ? from <= instant && instant < to : instant < to || from <= instant;
  return in_summer ? summer : standard;
}

std::optional<ClockRule> parse_clock_rule(std::string_view text) {
  Scanner scan(text);
  ClockRule rule;
  scan.skip_name();
  rule.standard = rule.summer = -scan.time();
  if (scan.good() && !scan.done()) {
    scan.skip_name();
    constexpr long kHour = 3600;
    rule.summer = scan.next_is(',') ? rule.standard + kHour : -scan.time();
    rule.begin = scan.change();
    rule.end = scan.change();
  }
  if (!scan.good() || !scan.done()) return std::nullopt;
  return rule;
}

}  // namespace sightfall::file
