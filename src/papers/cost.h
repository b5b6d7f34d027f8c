// SPDX-License-Identifier: GPL-3.0-or-later
// What an option costs, as far as prices are stated, and how much has none: unknown is never counted as nothing.
//   Limits   cable by its longest likely length, that of runs which are to be settled first included; brackets, ends of
//            cables, fixings, what cable lies in and work have no prices in a document
//   Checked  cost_test.cpp
#pragma once
#include <optional>
#include <string>

#include "papers/job.h"

namespace sightfall::papers {

/// Things of one sort.
struct PricedSort {
  double sum = 0;
  size_t priced = 0, unpriced = 0;

  void add(const std::optional<double>& price, size_t pieces = 1);
  void add(const PricedSort& other);
};

struct Cost {
  PricedSort cameras, feeds, disks;
  PricedSort cable;  ///< by its kinds

  /// Feeds, disks and cable.
  PricedSort carriers() const;
  PricedSort all() const;
};

Cost cost_of(const Verdicts& option);

/// `1531.5`: no finer than a hundredth.
std::string money_words(double sum);

/// For whoever pays: the sum, what it is made of, and what is not in it.
std::string cost_told(const Job& job);

}  // namespace sightfall::papers
