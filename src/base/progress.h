// SPDX-License-Identifier: GPL-3.0-or-later
// How long work tells how far it is and learns that it should stop.
#pragma once
#include <atomic>
#include <functional>
#include <string_view>

namespace sightfall {

struct Progress {
  /// Called from one thread at a time with the share done, 0 to 1, and what is being done.
  std::function<void(double share, std::string_view what)> tell = [](double, std::string_view) {};
  /// Set from anywhere to stop; the work then returns what it has.
  const std::atomic<bool>* stop = nullptr;

  /// Of a part of the work, from one share of the whole to another. The whole must outlive it.
  Progress part(double from, double to) const {
    return {[this, from, to](double share, std::string_view what) { tell(from + share * (to - from), what); }, stop};
  }

  bool stopped() const { return stop != nullptr && stop->load(std::memory_order_relaxed); }
};

}  // namespace sightfall
