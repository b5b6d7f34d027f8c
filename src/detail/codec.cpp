// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/codec.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace sightfall::detail {
namespace {

constexpr double kOne = 4, kDoubles = 6;  // ITU-T H.264 table 8-15 and H.265 8.6.4: the step doubles every 6

/// A place on a rising axis: between `at` and the next one, by a share; held at the ends.
struct Place {
  size_t at = 0;
  double share = 0;
};

Place place_on(const std::vector<double>& axis, double value) {
  if (axis.size() < 2 || value <= axis.front()) return {0, 0};
  if (value >= axis.back()) return {axis.size() - 2, 1};
  const auto above = std::upper_bound(axis.begin(), axis.end(), value);
  const auto at = static_cast<size_t>(above - axis.begin()) - 1;
  return {at, (value - axis[at]) / (axis[at + 1] - axis[at])};
}

double log_of_more(double x) { return std::log2(1 + x); }

std::vector<double> logs_of(const std::vector<double>& values) {
  std::vector<double> logs;
  logs.reserve(values.size());
  for (const double value : values) logs.push_back(std::log2(value));
  return logs;
}

/// The value of `y` where `x`, which rises or falls, has a value.
double looked_up(const std::vector<double>& x, const std::vector<double>& y, double value) {
  const bool falls = x.front() > x.back();
  size_t next = 1;
  const auto before = [&](size_t i) { return falls ? x[i] > value : x[i] < value; };
  while (next + 1 < x.size() && before(next)) ++next;
  const double a = x[next - 1], b = x[next];
  const double share = a == b ? 0 : std::clamp((value - a) / (b - a), 0.0, 1.0);
  return y[next - 1] + share * (y[next] - y[next - 1]);
}

/// The axis in rising order, each value once.
std::vector<double> axis_of(const std::vector<CodecTable::Surviving>& all, double CodecTable::Surviving::*member) {
  std::vector<double> values;
  values.reserve(all.size());
  for (const CodecTable::Surviving& one : all) values.push_back(one.*member);
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  return values;
}

}  // namespace

double step_of(double quantiser) { return std::exp2((quantiser - kOne) / kDoubles); }

double quantiser_of(double step) { return kOne + kDoubles * std::log2(step); }

CodecTable::CodecTable(std::vector<double> frequencies, std::vector<Rates> rates,
                       const std::vector<Surviving>& surviving)
    : frequencies_{std::move(frequencies)},
      noises_{axis_of(surviving, &Surviving::noise)},
      amplitudes_{axis_of(surviving, &Surviving::amplitude)},
      log_amplitudes_{logs_of(amplitudes_)} {
  CHECK_EQ(surviving.size(), noises_.size() * amplitudes_.size());
  CHECK_GT(rates.size(), size_t{1});
  rates_.reserve(rates.size());
  for (Rates& one : rates) {
    CHECK_GT(one.quality.size(), size_t{1});
    CHECK_EQ(one.quantiser.size(), one.quality.size());
    CHECK_EQ(one.bits_per_pixel.size(), one.quality.size());
    std::vector<double> logs = logs_of(one.bits_per_pixel);
    rates_.push_back({log_of_more(one.noise), std::move(one.quality), std::move(one.quantiser), std::move(logs)});
  }
  for (size_t i = 0; i < surviving.size(); ++i) {
    CHECK_EQ(surviving[i].share.size(), frequencies_.size());
    CHECK_EQ(surviving[i].noise, noises_[i / amplitudes_.size()]);
    CHECK_EQ(surviving[i].amplitude, amplitudes_[i % amplitudes_.size()]);
    share_.insert(share_.end(), surviving[i].share.begin(), surviving[i].share.end());
  }
}

double CodecTable::between_noises(double noise, std::vector<double> LogRates::*from, std::vector<double> LogRates::*to,
                                  double value) const {
  const double log = log_of_more(std::max(noise, 0.0));
  size_t next = 1;
  while (next + 1 < rates_.size() && rates_[next].noise < log) ++next;
  const LogRates &low = rates_[next - 1], &high = rates_[next];
  const double share = std::clamp((log - low.noise) / (high.noise - low.noise), 0.0, 1.0);
  return (1 - share) * looked_up(low.*from, low.*to, value) + share * looked_up(high.*from, high.*to, value);
}

double CodecTable::step_at_rate(double bits_per_pixel, double noise) const {
  return step_of(between_noises(noise, &LogRates::bits_per_pixel, &LogRates::quantiser,
                                std::log2(std::max(bits_per_pixel, 1e-12))));
}

double CodecTable::step_at_quality(double factor, double noise) const {
  return step_of(between_noises(noise, &LogRates::quality, &LogRates::quantiser, factor));
}

double CodecTable::quality_of_step(double step, double noise) const {
  return between_noises(noise, &LogRates::quantiser, &LogRates::quality, quantiser_of(std::max(step, 1e-6)));
}

double CodecTable::bits_at_quality(double factor, double noise) const {
  return std::exp2(between_noises(noise, &LogRates::quality, &LogRates::bits_per_pixel, factor));
}

double CodecTable::surviving(double amplitude, double noise, double frequency) const {
  if (amplitude <= 0) return 0;
  const Place n = place_on(noises_, noise), a = place_on(log_amplitudes_, std::log2(amplitude)),
              f = place_on(frequencies_, frequency);
  double sum = 0;
  for (const size_t i : {0U, 1U})
    for (const size_t j : {0U, 1U})
      for (const size_t k : {0U, 1U}) {
        const double weight =
            (i == 0 ? 1 - n.share : n.share) * (j == 0 ? 1 - a.share : a.share) * (k == 0 ? 1 - f.share : f.share);
        if (weight > 0)
          sum += weight * share_[((n.at + i) * amplitudes_.size() + a.at + j) * frequencies_.size() + f.at + k];
      }
  return sum * std::min(1.0, amplitude / amplitudes_.front());  // fainter than any that was tried
}

}  // namespace sightfall::detail
