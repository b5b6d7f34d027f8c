// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/checker.h"

#include <sys/resource.h>
#include <tbb/task_arena.h>
#include <unistd.h>

#include <chrono>
#include <exception>
#include <string>
#include <utility>

#include "file/answers.h"
#include "need/check.h"
#include "serve/telling.h"

namespace sightfall::serve {
namespace {

constexpr int kLessUrgent = 10;

}  // namespace

Checker::Checker(Events& events) : events_{events}, thread_{[this] { run(); }} {}

Checker::~Checker() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    stop_ = true;
  }
  change_.notify_all();
  thread_.join();
}

void Checker::judge(Snapshot site) {
  {
    const std::lock_guard lock(mutex_);
    next_ = std::move(site);
    stop_ = true;
  }
  change_.notify_all();
}

void Checker::rest() {
  const std::lock_guard lock(mutex_);
  next_.reset();
  stop_ = true;
}

void Checker::run() {
  // On Linux this is the thread's alone. Refused, judging is as urgent as the rest.
  (void)::setpriority(PRIO_PROCESS, static_cast<id_t>(::gettid()), kLessUrgent);
  while (true) {
    Snapshot site;
    {
      std::unique_lock lock(mutex_);
      change_.wait(lock, [this] { return ending_ || next_; });
      if (ending_) return;
      site = std::move(*next_);
      next_.reset();
      stop_ = false;
    }
    judge_one(site);
  }
}

void Checker::judge_one(const Snapshot& site) {
  try {
    if (judge_stage(site, false)) judge_stage(site, true);
  } catch (const std::exception& thrown) {
    tell(site, "failed", errors_body({{ErrorKind::kRequest, std::string("our fault: ") + thrown.what(), {}}}));
  }
}

bool Checker::judge_stage(const Snapshot& site, bool remedies) {
  need::CheckOptions options;
  options.remedies = remedies;
  // What a page waits for, such as the map under a camera that is being dragged, goes before.
  tbb::task_arena arena(tbb::task_arena::automatic, 1, tbb::task_arena::priority::low);
  const Progress progress = telling([this](const file::Value& data) { events_.tell("progress", data); }, "check", stop_,
                                    std::chrono::steady_clock::now());
  const need::CheckResult result = arena.execute([&] { return need::check(*site.project, options, progress); });
  if (result.stopped || stop_) return false;
  const file::Asks asks = arena.execute([&] { return loads::asks_if_said(*site.project); });
  tell(site, remedies ? "remedies" : "verdicts", file::answer_of(*site.project, result, asks));
  return true;
}

void Checker::tell(const Snapshot& site, const char* stage, file::Value answer) {
  events_.tell_and_keep("check",
                        file::Object{{"revision", site.revision}, {"stage", stage}, {"answer", std::move(answer)}});
}

}  // namespace sightfall::serve
