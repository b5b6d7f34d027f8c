// SPDX-License-Identifier: GPL-3.0-or-later
// Judges the site beside all else, after each edit: first the verdicts alone, then with remedies.
//   Library  oneTBB, only to say that this is less urgent than what pages wait for
//   Promise  a newer site stops the judging of an older one; what a library throws ends one judgement and no more
//   Checked  desk_test.cpp
#pragma once
#include <atomic>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "serve/desk.h"
#include "serve/events.h"

namespace sightfall::serve {

class Checker {
 public:
  /// Tells `check` and `progress`.
  explicit Checker(Events& events);
  ~Checker();
  Checker(const Checker&) = delete;
  Checker& operator=(const Checker&) = delete;

  void judge(Snapshot site);
  /// Stops what is being judged: there is no site any longer, or another comes.
  void rest();

 private:
  void run();
  void judge_one(const Snapshot& site);
  void judge_in_stages(const Snapshot& site);
  void tell(const Snapshot& site, const char* stage, file::Value answer);

  Events& events_;
  std::mutex mutex_;
  std::condition_variable change_;
  std::optional<Snapshot> next_;
  bool ending_ = false;
  std::atomic<bool> stop_ = false;
  std::thread thread_;
};

}  // namespace sightfall::serve
