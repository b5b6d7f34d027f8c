// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/jobs.h"

#include <algorithm>

namespace sightfall::serve {

Jobs::Jobs(size_t threads, size_t most_waiting) : most_{most_waiting} {
  threads_.reserve(threads);
  for (size_t i = 0; i < threads; ++i) threads_.emplace_back([this] { run(); });
}

Jobs::~Jobs() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  change_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

bool Jobs::put(Job job) {
  std::function<void()> replaced;
  {
    const std::lock_guard lock(mutex_);
    const auto older = std::find_if(waiting_.begin(), waiting_.end(), [&](const Job& one) {
      return !job.kind.empty() && one.kind == job.kind && one.tab == job.tab;
    });
    if (older != waiting_.end()) {
      replaced = std::move(older->replaced);
      *older = std::move(job);
    } else if (job.gone != nullptr && waiting_.size() >= most_) {
      return false;
    } else {
      waiting_.push_back(std::move(job));
    }
  }
  change_.notify_one();
  if (replaced) replaced();
  return true;
}

std::optional<Job> Jobs::next() {
  std::unique_lock lock(mutex_);
  change_.wait(lock, [this] { return ending_ || !waiting_.empty(); });
  if (waiting_.empty()) return std::nullopt;
  Job job = std::move(waiting_.front());
  waiting_.pop_front();
  return job;
}

void Jobs::run() {
  while (const auto job = next())
    if (job->gone == nullptr || !*job->gone) job->work();
}

}  // namespace sightfall::serve
