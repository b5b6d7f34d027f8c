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

template <class Scale>
Place place_on(const std::vector<double>& axis, double value, Scale scale) {
  if (axis.size() < 2 || value <= axis.front()) return {0, 0};
  if (value >= axis.back()) return {axis.size() - 2, 1};
  const auto above = std::upper_bound(axis.begin(), axis.end(), value);
  const auto at = static_cast<size_t>(above - axis.begin()) - 1;
  const double low = scale(axis[at]), high = scale(axis[at + 1]);
  return {at, (scale(value) - low) / (high - low)};
}

double same(double x) { return x; }
double log_of(double x) { return std::log2(x); }
double log_of_more(double x) { return std::log2(1 + x); }

/// The value of `y` where `x`, which rises or falls, has a value.
double looked_up(const std::vector<double>& x, const std::vector<double>& y, double value, bool logarithm) {
  const bool falls = x.front() > x.back();
  size_t next = 1;
  const auto before = [&](size_t i) { return falls ? x[i] > value : x[i] < value; };
  while (next + 1 < x.size() && before(next)) ++next;
  const double a = logarithm ? std::log2(x[next - 1]) : x[next - 1], b = logarithm ? std::log2(x[next]) : x[next];
  const double at = logarithm ? std::log2(std::max(value, 1e-12)) : value;
  const double share = a == b ? 0 : std::clamp((at - a) / (b - a), 0.0, 1.0);
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
      rates_{std::move(rates)} {
  CHECK_EQ(surviving.size(), noises_.size() * amplitudes_.size());
  CHECK_GT(rates_.size(), size_t{1});
  for (const Rates& one : rates_) {
    CHECK_GT(one.quality.size(), size_t{1});
    CHECK_EQ(one.quantiser.size(), one.quality.size());
    CHECK_EQ(one.bits_per_pixel.size(), one.quality.size());
  }
  for (size_t i = 0; i < surviving.size(); ++i) {
    CHECK_EQ(surviving[i].share.size(), frequencies_.size());
    CHECK_EQ(surviving[i].noise, noises_[i / amplitudes_.size()]);
    CHECK_EQ(surviving[i].amplitude, amplitudes_[i % amplitudes_.size()]);
    share_.insert(share_.end(), surviving[i].share.begin(), surviving[i].share.end());
  }
}

template <class Of>
double CodecTable::between_noises(double noise, Of of) const {
  size_t next = 1;
  while (next + 1 < rates_.size() && rates_[next].noise < noise) ++next;
  const double low = log_of_more(rates_[next - 1].noise), high = log_of_more(rates_[next].noise);
  const double share = std::clamp((log_of_more(std::max(noise, 0.0)) - low) / (high - low), 0.0, 1.0);
  return (1 - share) * of(rates_[next - 1]) + share * of(rates_[next]);
}

double CodecTable::step_at_rate(double bits_per_pixel, double noise) const {
  return step_of(between_noises(
      noise, [&](const Rates& one) { return looked_up(one.bits_per_pixel, one.quantiser, bits_per_pixel, true); }));
}

double CodecTable::step_at_quality(double factor, double noise) const {
  return step_of(
      between_noises(noise, [&](const Rates& one) { return looked_up(one.quality, one.quantiser, factor, false); }));
}

double CodecTable::quality_of_step(double step, double noise) const {
  const double quantiser = quantiser_of(std::max(step, 1e-6));
  return between_noises(noise,
                        [&](const Rates& one) { return looked_up(one.quantiser, one.quality, quantiser, false); });
}

double CodecTable::bits_at_quality(double factor, double noise) const {
  return std::exp2(between_noises(noise, [&](const Rates& one) {
    std::vector<double> logs;
    logs.reserve(one.bits_per_pixel.size());
    for (const double bits : one.bits_per_pixel) logs.push_back(std::log2(bits));
    return looked_up(one.quality, logs, factor, false);
  }));
}

double CodecTable::surviving(double amplitude, double noise, double frequency) const {
  if (amplitude <= 0) return 0;
  const Place n = place_on(noises_, noise, same), a = place_on(amplitudes_, amplitude, log_of),
              f = place_on(frequencies_, frequency, same);
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
