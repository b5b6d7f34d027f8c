// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/exposure.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace sightfall::detail {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr double kLeastWell = 1;      // electron: what keeps the answer finite for any input
constexpr double kLeastPower = 0.01;  // adaptive infrared dims to this share, not to nothing

/// Where a line between two points (drive, level) reaches a level.
double between(double drive0, double level0, double drive1, double level1, double level) {
  return level1 > level0 ? drive0 + (drive1 - drive0) * (level - level0) / (level1 - level0) : drive1;
}

/// Frame brightness as a whole when the camera's own infrared is at a share of its nominal power.
double scale_at(const Metering& metering, double scale, double own_scale, double power) {
  return scale * (1 - metering.own_share() + metering.own_share() * own_scale * power);
}

struct Drives {
  double least = 0, most = 0;
};

Drives drives_of(const ExposureLimits& limits, double full_well) {
  return {limits.shortest / limits.iris_range / full_well, limits.longest * limits.largest_gain / full_well};
}

double drive_at(const Metering& metering, const ExposureLimits& limits, const MeterSubject& subject,
                const Drives& drives, double frame_scale, double power) {
  const double rate = subject.others + power * subject.own;
  const double cover = metering.uniform() ? 1 : subject.cover;
  return std::clamp(metering.drive_for(limits.target, frame_scale, rate, cover), drives.least, drives.most);
}

/// Largest power at which the subject's bright parts, or the share of the frame that may clip, just do not clip at the
/// most that shutter and gain can do.
double power_without_clipping(const Metering& metering, const ExposureLimits& limits, const MeterSubject& subject,
                              const Drives& drives, double scale, double own_scale, bool subject_clips) {
  const double most = 1 / drives.most;
  double power = 1;
  if (subject_clips && subject.own > 0) {
    const double bright = 1 + subject.contrast;
    power = std::min(power, (most - bright * subject.others) / (bright * subject.own));
  }
  const double frame = metering.uniform() ? 0 : metering.bright(limits.clip_share) * scale;
  const double own = metering.own_share() * own_scale;
  if (frame * (1 - metering.own_share() + own) > most && own > 0)
    power = std::min(power, (most / frame - (1 - metering.own_share())) / own);
  return std::clamp(power, kLeastPower, 1.0);
}

Exposed split(const ExposureLimits& limits, double drive, double full_well, double power) {
  const double product = drive * full_well;  // seconds times gain times iris
  const double smallest = 1 / limits.iris_range;
  if (limits.order == camera::ExposureOrder::kShutterFirst) {
    const double iris = std::clamp(product / limits.longest, smallest, 1.0);
    const double time = std::clamp(product / iris, limits.shortest, limits.longest);
    return {time, std::clamp(product / (iris * time), 1.0, limits.largest_gain), power, iris};
  }
  // Gain first: the shutter stays as short as the gain allows.
  const double gain = std::clamp(product / limits.shortest, 1.0, limits.largest_gain);
  const double iris = std::clamp(product / limits.shortest, smallest, 1.0);
  return {std::clamp(product / (gain * iris), limits.shortest, limits.longest), gain, power, iris};
}

}  // namespace

Metering::Metering(std::span<const MeterPixel> frame) {
  std::vector<std::pair<double, double>> pixels;  // rate, weight
  double weights = 0, own = 0, all = 0;
  for (const MeterPixel& pixel : frame) {
    pixels.emplace_back(pixel.others + pixel.own, pixel.weight);
    weights += pixel.weight;
    own += pixel.own * pixel.weight;
    all += (pixel.others + pixel.own) * pixel.weight;
  }
  if (weights <= 0) return;
  mean_ = all / weights;
  own_share_ = all > 0 ? own / all : 0;
  std::sort(pixels.begin(), pixels.end(), std::greater<>{});
  count_ = std::min(kGroups, pixels.size());
  // Groups of equal weight; a pixel may belong to two.
  std::array<double, kGroups> sum{};
  const double share = weights / static_cast<double>(count_);
  size_t group = 0;
  double room = share;
  for (auto [rate, weight] : pixels)
    while (weight > 0 && group < count_) {
      const double part = std::min(weight, room);
      sum[group] += rate * part;
      weight -= part;
      room -= part;
      if (room <= 1e-12 * share) {
        ++group;
        room = share;
      }
    }
  double dimmer = 0;  // sum of the rates not yet clipped
  for (size_t i = 0; i < count_; ++i) {
    rate_[i] = sum[i] / share;
    dimmer += rate_[i];
  }
  for (size_t i = 0; i < count_; ++i) {
    drive_[i] = rate_[i] > 0 ? 1 / rate_[i] : kNever;
    dimmer -= rate_[i];
    const double clipped = static_cast<double>(i + 1), unclipped = rate_[i] > 0 ? std::max(dimmer, 0.0) * drive_[i] : 0;
    level_[i] = (clipped + unclipped) / static_cast<double>(count_);
  }
}

double Metering::share_above(double rate) const {
  if (count_ == 0) return 0;
  const auto end = std::partition_point(rate_.begin(), rate_.begin() + static_cast<std::ptrdiff_t>(count_),
                                        [&](double r) { return r > rate; });
  return static_cast<double>(end - rate_.begin()) / static_cast<double>(count_);
}

double Metering::bright(double share) const {
  if (count_ == 0) return 0;
  const auto group = static_cast<size_t>(std::clamp(share, 0.0, 1.0) * static_cast<double>(count_));
  return rate_[std::min(group, count_ - 1)];
}

double Metering::drive_for(double target, double scale, double subject_rate, double cover) const {
  const double clips = subject_rate > 0 ? 1 / subject_rate : kNever;  // the subject's own breakpoint
  if (count_ == 0 || cover >= 1 || mean_ * scale <= 0) {
    // The frame gives nothing, or there is none: the subject alone.
    const double level = count_ == 0 || cover >= 1 ? target : target / std::max(cover, 1e-12);
    return level <= 1 ? level * clips : kNever;
  }
  const auto total = [&](size_t i) {
    return (1 - cover) * level_[i] + cover * std::min(subject_rate * drive_[i] / scale, 1.0);
  };
  size_t low = 0, high = count_;  // the first breakpoint at which the target is reached
  while (low < high) {
    const size_t middle = (low + high) / 2;
    if (drive_[middle] == kNever || total(middle) >= target)
      high = middle;
    else
      low = middle + 1;
  }
  const double drive0 = low == 0 ? 0 : drive_[low - 1] / scale, level0 = low == 0 ? 0 : total(low - 1);
  double drive1 = kNever, level1 = level0;
  if (low < count_ && drive_[low] != kNever) {
    drive1 = drive_[low] / scale;
    level1 = total(low);
  }
  if (clips > drive0 && clips < drive1) {
    // The subject's breakpoint lies within: the level there is on the frame's own straight line.
    const double frame0 = low == 0 ? 0 : level_[low - 1];
    const double frame =
        drive1 == kNever ? frame0 : frame0 + (level_[low] - frame0) * (clips - drive0) / (drive1 - drive0);
    const double there = (1 - cover) * frame + cover;
    if (there >= target) return between(drive0, level0, clips, there, target);
    if (drive1 == kNever) return kNever;
    return between(clips, there, drive1, level1, target);
  }
  return drive1 == kNever ? kNever : between(drive0, level0, drive1, level1, target);
}

Exposed expose(const Metering& metering, const ExposureLimits& limits, const MeterSubject& subject, double full_well,
               double scale, double own_scale) {
  full_well = std::max(full_well, kLeastWell);
  const Drives drives = drives_of(limits, full_well);
  const double full_power = scale_at(metering, scale, own_scale, 1);
  double drive = drive_at(metering, limits, subject, drives, full_power, 1);
  double power = 1;
  const bool any_own = subject.own > 0 || metering.own_share() > 0;
  if (limits.adaptive && any_own) {
    const double cover = metering.uniform() ? 1 : subject.cover;
    const bool subject_clips = (subject.others + subject.own) * (1 + subject.contrast) * drive > 1;
    const double clipped = (1 - cover) * metering.share_above(1 / (drive * full_power)) + (subject_clips ? cover : 0);
    if (clipped > limits.clip_share) {
      power = power_without_clipping(metering, limits, subject, drives, scale, own_scale,
                                     subject_clips && cover > limits.clip_share);
      drive = drive_at(metering, limits, subject, drives, scale_at(metering, scale, own_scale, power), power);
    }
  }
  return split(limits, drive, full_well, power);
}

}  // namespace sightfall::detail
