// SPDX-License-Identifier: GPL-3.0-or-later
// Owners for objects of a C library that are freed through a pointer to their pointer.
#pragma once
#include <memory>

namespace sightfall::video {

template <auto Free>
struct FreedBy {
  template <class T>
  void operator()(T* object) const {
    Free(&object);
  }
};

template <class T, auto Free>
using Owned = std::unique_ptr<T, FreedBy<Free>>;

}  // namespace sightfall::video
