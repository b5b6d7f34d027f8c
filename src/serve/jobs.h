// SPDX-License-Identifier: GPL-3.0-or-later
// Work off the serving thread.
//   Promise  in the order of asking; newer work of the same kind for the same page takes the place of older work that
//            still waits; work that nobody waits for any longer is not begun
//   Checked  jobs_test.cpp
#pragma once
#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace sightfall::serve {

struct Job {
  std::string kind;  ///< such as `map`; empty: nothing takes its place
  std::string tab;
  /// Set once nobody waits for it; null: it is done in any case.
  std::shared_ptr<const std::atomic<bool>> gone;
  std::function<void()> work;
  /// Called instead when newer work took its place.
  std::function<void()> replaced = [] {};
};

class Jobs {
 public:
  Jobs(size_t threads, size_t most_waiting);
  /// Does what has to be done in any case; of the rest, ends what runs once its `gone` is set.
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// False when too much waits already.
  bool put(Job job);

 private:
  void run();
  std::optional<Job> next();

  const size_t most_;
  std::mutex mutex_;
  std::condition_variable change_;
  std::deque<Job> waiting_;
  bool ending_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace sightfall::serve
