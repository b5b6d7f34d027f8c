// SPDX-License-Identifier: GPL-3.0-or-later
// CHECK: a promise of our own code, on in every build. A broken one is our bug, never the user's: it prints the
// condition with both values and aborts.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <sstream>
#include <string>

namespace sightfall::check_detail {

template <class A, class B>
[[noreturn]] void broken(const char* text, const A& left, const B& right, const char* file, int line) {
  std::ostringstream values;
  values << left << " against " << right;
  std::fprintf(stderr, "%s:%d: broken promise: %s (%s)\n", file, line, text, values.str().c_str());
  std::abort();
}

}  // namespace sightfall::check_detail

#define SIGHTFALL_CHECK_OP(a, op, b)                                                                      \
  do {                                                                                                    \
    const auto& sightfall_a = (a);                                                                        \
    const auto& sightfall_b = (b);                                                                        \
    if (!(sightfall_a op sightfall_b))                                                                    \
      ::sightfall::check_detail::broken(#a " " #op " " #b, sightfall_a, sightfall_b, __FILE__, __LINE__); \
  } while (false)
#define CHECK_EQ(a, b) SIGHTFALL_CHECK_OP(a, ==, b)
#define CHECK_LT(a, b) SIGHTFALL_CHECK_OP(a, <, b)
#define CHECK_LE(a, b) SIGHTFALL_CHECK_OP(a, <=, b)
#define CHECK_GT(a, b) SIGHTFALL_CHECK_OP(a, >, b)
