// SPDX-License-Identifier: GPL-3.0-or-later
// The reference: the ray library alone on rays laid out beforehand, in packets of 16, in streams of 256 and one at a
// time.
#pragma once
#include <memory>
#include <vector>

#include "geom/vec.h"
#include "site/site.h"

namespace sightfall::bench {

class BareRays {
 public:
  explicit BareRays(const site::Site& site);
  ~BareRays();

  /// Seconds of one thread spent in the library alone for rays from an eye to targets (metres), by the fastest of its
  /// three ways over all calls so far; laying out the rays is not counted.
  struct Times {
    double packets = 0, streams = 0, single = 0;
    double best() const;
  };
  void add(geom::SitePoint eye, const std::vector<geom::SitePoint>& targets, bool packets_alone, Times& times) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sightfall::bench
