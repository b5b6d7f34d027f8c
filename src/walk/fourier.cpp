// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/fourier.h"

#include <fftw3.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

#include "base/check.h"

namespace sightfall::walk {
namespace {

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
int mirrored_at_edge(int i, int count) {
  const int period = 2 * count;
  const int in_period = ((i % period) + period) % period;
  return in_period < count ? in_period : period - 1 - in_period;
}

/// Points of a tile's side: all of a small plane with its rims, else so many that the rims take little.
int tile_side(int count, int reach) {
  constexpr int kLeast = 256;
  int side = kLeast;
  while (side < 6 * reach) side *= 2;
  return std::min(side, quick_length(count + 2 * reach));
}

/// FFTW's plans for tiles of a size, made once. It makes and destroys plans on one thread at a time.
class Plans {
 public:
  Plans(int columns, int rows) {
    const size_t spectrum = static_cast<size_t>(columns / 2 + 1) * static_cast<size_t>(rows);
    const std::unique_ptr<float, Freed> reals{
        fftwf_alloc_real(static_cast<size_t>(columns) * static_cast<size_t>(rows))};
    const std::unique_ptr<fftwf_complex, Freed> complex{fftwf_alloc_complex(spectrum)};
    there_ = fftwf_plan_dft_r2c_2d(rows, columns, reals.get(), complex.get(), FFTW_ESTIMATE);
    back_ = fftwf_plan_dft_c2r_2d(rows, columns, complex.get(), reals.get(), FFTW_ESTIMATE);
  }
  ~Plans() {
    fftwf_destroy_plan(there_);
    fftwf_destroy_plan(back_);
  }
  Plans(const Plans&) = delete;
  Plans& operator=(const Plans&) = delete;

  static const Plans& of(int columns, int rows) {
    static std::mutex planning;
    static std::map<std::pair<int, int>, std::unique_ptr<Plans>> made;
    const std::lock_guard lock{planning};
    auto& plans = made[{columns, rows}];
    if (!plans) plans = std::make_unique<Plans>(columns, rows);
    return *plans;
  }
  void there(float* reals, fftwf_complex* spectrum) const { fftwf_execute_dft_r2c(there_, reals, spectrum); }
  void back(fftwf_complex* spectrum, float* reals) const { fftwf_execute_dft_c2r(back_, spectrum, reals); }

 private:
  fftwf_plan there_ = nullptr, back_ = nullptr;
};

/// A plane's tiles and the gains of their spectra.
class Tiling {
 public:
  Tiling(const Plane& plane, std::span<const Transfer> transfers, int reach)
      : columns_{tile_side(plane.columns, reach)},
        rows_{tile_side(plane.rows, reach)},
        reach_{reach},
        plans_{Plans::of(columns_, rows_)} {
    for (const Transfer& transfer : transfers) add_gains(transfer);
  }

  int across(const Plane& plane) const { return (plane.columns + kept_columns() - 1) / kept_columns(); }
  int down(const Plane& plane) const { return (plane.rows + kept_rows() - 1) / kept_rows(); }
  int kept_columns() const { return columns_ - 2 * reach_; }
  int kept_rows() const { return rows_ - 2 * reach_; }

  /// What a tile's transforms work in.
  struct Work {
    std::unique_ptr<float, Freed> reals;
    std::unique_ptr<fftwf_complex, Freed> spectrum, product;
    size_t room = 0;
  };

  /// Fills the part of `out` that a tile keeps.
  void tile(const Plane& plane, const Plane& place, int left, int top, Work& work, Plane& out) const {
    make_room(work);
    const int columns = std::min(kept_columns(), plane.columns - left), rows = std::min(kept_rows(), plane.rows - top);
    if (!gather(plane, left, top, work)) {  // nothing there: nothing comes of it
      for (int r = 0; r < rows; ++r) std::fill_n(&out.at[out.index(left, top + r)], columns, 0.0F);
      return;
    }
    plans_.there(work.reals.get(), work.spectrum.get());
    for (size_t level = 0; level < gains_.size(); ++level) {
      if (gains_.size() > 1 && !wanted(place, level, left, top, columns, rows)) continue;
      multiply(level, work);
      plans_.back(work.product.get(), work.reals.get());
      for (int r = 0; r < rows; ++r) {
        const float* from = work.reals.get() + static_cast<ptrdiff_t>(r + reach_) * columns_ + reach_;
        const size_t at = out.index(left, top + r);
        if (gains_.size() == 1)
          std::copy_n(from, columns, &out.at[at]);
        else
          for (int c = 0; c < columns; ++c)
            out.at[at + static_cast<size_t>(c)] += share(place.at[at + static_cast<size_t>(c)], level) * from[c];
      }
    }
  }

 private:
  size_t half() const { return static_cast<size_t>(columns_ / 2 + 1); }

  void add_gains(const Transfer& transfer) {
    const double points = static_cast<double>(columns_) * rows_;
    std::vector<float>& gains = gains_.emplace_back(half() * static_cast<size_t>(rows_));
    tbb::parallel_for(0, rows_, [&](int r) {
      const double down = static_cast<double>(r <= rows_ / 2 ? r : r - rows_) / rows_;
      for (size_t c = 0; c < half(); ++c)
        gains[static_cast<size_t>(r) * half() + c] =
            static_cast<float>(transfer(static_cast<double>(c) / columns_, down) / points);
    });
  }

  void make_room(Work& work) const {
    const size_t spectrum = half() * static_cast<size_t>(rows_);
    if (work.room >= spectrum) return;
    work.reals.reset(fftwf_alloc_real(2 * spectrum));
    work.spectrum.reset(fftwf_alloc_complex(spectrum));
    work.product.reset(fftwf_alloc_complex(spectrum));
    work.room = spectrum;
  }

  /// Takes a tile with its rims; false: it is nothing but zeros.
  bool gather(const Plane& plane, int left, int top, Work& work) const {
    bool any = false;
    const int inner = std::clamp(plane.columns - (left - reach_), 0, columns_);  // first one beyond the right edge
    const int before = std::clamp(reach_ - left, 0, inner);
    for (int r = 0; r < rows_; ++r) {
      const float* from = &plane.at[plane.index(0, mirrored_at_edge(top + r - reach_, plane.rows))];
      float* to = work.reals.get() + static_cast<ptrdiff_t>(r) * columns_;
      for (int c = 0; c < before; ++c) to[c] = from[mirrored_at_edge(left + c - reach_, plane.columns)];
      std::copy_n(from + left + before - reach_, inner - before, to + before);
      for (int c = inner; c < columns_; ++c) to[c] = from[mirrored_at_edge(left + c - reach_, plane.columns)];
      any = any || std::any_of(to, to + columns_, [](float v) { return v != 0; });
    }
    return any;
  }

  void multiply(size_t level, Work& work) const {
    const std::vector<float>& gains = gains_[level];
    const float* from = &work.spectrum.get()[0][0];
    float* to = &work.product.get()[0][0];
    for (size_t i = 0; i < gains.size(); ++i) {
      to[2 * i] = gains[i] * from[2 * i];
      to[2 * i + 1] = gains[i] * from[2 * i + 1];
    }
  }

  static float share(float place, size_t level) {
    return std::max(0.0F, 1 - std::abs(place - static_cast<float>(level)));
  }

  static bool wanted(const Plane& place, size_t level, int left, int top, int columns, int rows) {
    for (int r = 0; r < rows; ++r) {
      const float* from = &place.at[place.index(left, top + r)];
      if (std::any_of(from, from + columns, [&](float at) { return share(at, level) > 0; })) return true;
    }
    return false;
  }

  int columns_, rows_, reach_;
  const Plans& plans_;
  std::vector<std::vector<float>> gains_;
};

}  // namespace

Plane filtered(const Plane& plane, std::span<const Transfer> transfers, const Plane& place, int reach) {
  CHECK_GT(plane.columns, 0);
  CHECK_GT(plane.rows, 0);
  CHECK_EQ(transfers.size() == 1 || place.at.size() == plane.at.size(), true);
  const Tiling tiling{plane, transfers, reach};
  Plane out{plane.columns, plane.rows};
  const int across = tiling.across(plane);
  tbb::parallel_for(0, across * tiling.down(plane), [&](int index) {
    thread_local Tiling::Work work;
    tiling.tile(plane, place, index % across * tiling.kept_columns(), index / across * tiling.kept_rows(), work, out);
  });
  return out;
}

void filter(Plane& plane, const Transfer& transfer, int reach) { plane = filtered(plane, {&transfer, 1}, {}, reach); }

}  // namespace sightfall::walk
