// SPDX-License-Identifier: GPL-3.0-or-later
// Where a need is tried: samples of its place, ordered so that neighbours in the list are neighbours on the site.
//   Model    zones by a low-discrepancy sequence (the first n of 2n samples are the n samples), lines and routes at
//            even spacing; routes in lanes across their width, so that each lane is a passage
//   Source   R2 sequence: M. Roberts, The unreasonable effectiveness of quasirandom sequences (2018)
//   Checked  samples_test.cpp
#pragma once
#include <vector>

#include "geom/vec.h"
#include "need/project.h"

namespace sightfall::need {

/// One position of the subject's middle.
struct Sample {
  geom::SitePoint at_site;
  geom::PlanPoint travel;  ///< unit vector of travel; zero where none is given
  int passage = 0;         ///< the lane of a route
  double step = 0;         ///< m of the way that the sample stands for (routes)
};

/// How many samples a place gets at first: enough for its share's error, within bounds.
int first_count(const Project& project, const Need& need);

/// About `count` samples of a need's place.
std::vector<Sample> samples_of(const Project& project, const Need& need, int count);

/// Height of the subject's middle above ground.
Length subject_height(const Need& need, const detail::Typical& typical);

}  // namespace sightfall::need
