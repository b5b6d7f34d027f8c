// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/clock.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <exception>
#include <optional>
#include <vector>

#include "file/atomic.h"
#include "file/clock_rule.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

constexpr const char* kZoneFiles = "/usr/share/zoneinfo/";
constexpr long kDay = 86400;

date::year_month_day day_of(const site::ClockTime& when) {
  return date::year(when.year) / static_cast<unsigned>(when.month) / static_cast<unsigned>(when.day);
}

/// The rule stands between the last two line ends of the zone's file.
std::optional<ClockRule> rule_at_the_end(const std::string& time_zone) {
  constexpr size_t kLargestZoneFile = size_t{1} << 20;
  const Result<std::string> file = read_whole(kZoneFiles + time_zone, kLargestZoneFile);
  if (!file || file->size() < 2 || file->back() != '\n') return std::nullopt;
  const size_t before = file->rfind('\n', file->size() - 2);
  if (before == std::string::npos) return std::nullopt;
  return parse_clock_rule(std::string_view(*file).substr(before + 1, file->size() - before - 2));
}

/// Clocks of one zone: by the library to the last change it knows, and by the rule from then on.
class Clocks {
 public:
  explicit Clocks(const std::string& time_zone)
      : zone_{date::locate_zone(time_zone)}, rule_{rule_at_the_end(time_zone)} {}

  bool complete() const { return rule_.has_value(); }

  /// Seconds ahead of universal time at an instant in seconds since 1970.
  long offset_at(long instant) const {
    const auto info = zone_->get_info(date::sys_seconds(std::chrono::seconds(instant)));
    const bool after_last_change = info.end > date::sys_days(date::year(kLastYear + 1) / 1 / 1);
    return after_last_change ? rule_->offset_at(instant) : info.offset.count();
  }

  /// The instants at which the clocks show a time, which is given as if it were universal time.
  std::vector<long> instants(long shown) const {
    const long before = offset_at(shown - kDay), after = offset_at(shown + kDay);
    std::vector<long> found;
    if (offset_at(shown - before) == before) found.push_back(shown - before);
    if (after != before && offset_at(shown - after) == after) found.push_back(shown - after);
    return found;
  }

 private:
  const date::time_zone* zone_;
  std::optional<ClockRule> rule_;
};

std::string hour_in_words(long instant) {
  const long minutes = (instant % kDay + kDay) % kDay / 60;
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

Result<double> only_instant(const std::vector<long>& instants, const std::string& shown, const std::string& zone) {
  constexpr double kEpoch = 2440587.5;  // Julian day of 1970-01-01 00:00
  if (instants.size() == 1) return kEpoch + static_cast<double>(instants.front()) / static_cast<double>(kDay);
  if (instants.empty())
    return failure(ErrorKind::kField,
                   fmt::format("found \"{}\", which the clocks of {} skip that day; allowed is a time that they show",
                               shown, in_quotes(zone)));
  return failure(
      ErrorKind::kField,
      fmt::format("found \"{}\", which the clocks of {} show twice that day, at {} and at {} universal time; "
                  "which of the two is meant cannot be told apart, so another time is needed",
                  shown, in_quotes(zone), hour_in_words(instants[0]), hour_in_words(instants[1])));
}

}  // namespace

bool day_exists(const site::ClockTime& when) { return day_of(when).ok(); }

Result<void> find_zone(const std::string& time_zone) {
  const std::string unread = "found " + in_quotes(time_zone) + ", ";
  if (time_zone == "localtime")  // a zone's name on every system, and another zone on each
    return failure(ErrorKind::kReference, unread + "which says nothing to another machine; allowed are IANA names");
  try {
    if (Clocks(time_zone).complete()) return {};
    return failure(ErrorKind::kReference, unread + "whose clocks cannot be worked out; allowed is another name of it");
  } catch (const std::exception&) {  // the library throws where a name or the system's zones are not there
    return failure(ErrorKind::kReference,
                   unread + "which is no time zone of this system; allowed are IANA names such as \"Europe/Paris\"");
  }
}

Result<double> julian_day(const site::ClockTime& when, const std::string& time_zone) {
  try {
    const auto shown = date::sys_days(day_of(when)) + std::chrono::hours(when.hour) + std::chrono::minutes(when.minute);
    const long seconds = std::chrono::duration_cast<std::chrono::seconds>(shown.time_since_epoch()).count();
    return only_instant(Clocks(time_zone).instants(seconds), hour_in_words(seconds), time_zone);
  } catch (const std::exception& error) {
    return failure(ErrorKind::kReference, "the time zone cannot be read: " + std::string(error.what()));
  }
}

}  // namespace sightfall::file
