// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/fourier.h"

#include <fftw3.h>

#include <algorithm>
#include <memory>
#include <mutex>

#include "base/check.h"

namespace sightfall::walk {
namespace {

/// FFTW makes and destroys plans on one thread at a time.
std::mutex& planning() {
  static std::mutex mutex;
  return mutex;
}

struct Freed {
  void operator()(void* memory) const { fftwf_free(memory); }
};

/// The least number from `least` on that has no prime factor but 2, 3 and 5.
int quick_length(int least) {
  for (int n = least;; ++n) {
    int rest = n;
    for (const int prime : {2, 3, 5})
      while (rest % prime == 0) rest /= prime;
    if (rest == 1) return n;
  }
}

/// Where a point outside 0 to count - 1 lies when the picture is mirrored at its edges.
int mirrored(int i, int count) {
  const int period = 2 * count;
  const int in_period = ((i % period) + period) % period;
  return in_period < count ? in_period : period - 1 - in_period;
}

class Transform {
 public:
  Transform(int columns, int rows)
      : columns_{columns},
        rows_{rows},
        reals_{fftwf_alloc_real(static_cast<size_t>(columns) * static_cast<size_t>(rows))},
        spectrum_{fftwf_alloc_complex(static_cast<size_t>(half()) * static_cast<size_t>(rows))} {
    const std::lock_guard lock{planning()};
    there_ = fftwf_plan_dft_r2c_2d(rows, columns, reals_.get(), spectrum_.get(), FFTW_ESTIMATE);
    back_ = fftwf_plan_dft_c2r_2d(rows, columns, spectrum_.get(), reals_.get(), FFTW_ESTIMATE);
  }
  ~Transform() {
    const std::lock_guard lock{planning()};
    fftwf_destroy_plan(there_);
    fftwf_destroy_plan(back_);
  }
  Transform(const Transform&) = delete;
  Transform& operator=(const Transform&) = delete;

  float* row(int r) { return reals_.get() + static_cast<ptrdiff_t>(r) * columns_; }

  void apply(const Transfer& transfer) {
    fftwf_execute(there_);
    const double points = static_cast<double>(columns_) * rows_;
    for (int r = 0; r < rows_; ++r) {
      const double down = static_cast<double>(r <= rows_ / 2 ? r : r - rows_) / rows_;
      fftwf_complex* line = spectrum_.get() + static_cast<ptrdiff_t>(r) * half();
      for (int c = 0; c < half(); ++c) {
        const auto gain = static_cast<float>(transfer(static_cast<double>(c) / columns_, down) / points);
        line[c][0] *= gain;
        line[c][1] *= gain;
      }
    }
    fftwf_execute(back_);
  }

 private:
  int half() const { return columns_ / 2 + 1; }

  int columns_, rows_;
  std::unique_ptr<float, Freed> reals_;
  std::unique_ptr<fftwf_complex, Freed> spectrum_;
  fftwf_plan there_ = nullptr, back_ = nullptr;
};

}  // namespace

void filter(Plane& plane, const Transfer& transfer, int reach) {
  CHECK_GT(plane.columns, 0);
  CHECK_GT(plane.rows, 0);
  const int columns = quick_length(plane.columns + 2 * reach), rows = quick_length(plane.rows + 2 * reach);
  Transform transform{columns, rows};
  for (int r = 0; r < rows; ++r) {
    const int from = mirrored(r - reach, plane.rows);
    float* out = transform.row(r);
    for (int c = 0; c < columns; ++c) out[c] = plane.at[plane.index(mirrored(c - reach, plane.columns), from)];
  }
  transform.apply(transfer);
  for (int r = 0; r < plane.rows; ++r)
    std::copy_n(transform.row(r + reach) + reach, plane.columns, &plane.at[plane.index(0, r)]);
}

}  // namespace sightfall::walk
