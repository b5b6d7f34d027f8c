// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/checker.h"

#include <sys/resource.h>
#include <tbb/task_arena.h>
#include <unistd.h>

#include <chrono>
#include <exception>
#include <functional>
#include <string>
#include <utility>

#include "file/answers.h"
#include "need/check.h"
#include "need/lit_project.h"
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
    judge_in_stages(site);
  } catch (const std::exception& thrown) {
    tell(site, "failed", errors_body({{ErrorKind::kRequest, std::string("our fault: ") + thrown.what(), {}}}));
  }
}

void Checker::judge_in_stages(const Snapshot& site) {
  const need::LitProject lit{*site.project};
  need::CheckResult result;
  file::Asks asks;
  const auto stage = [&](const char* name, const std::function<void(const Progress&)>& work) {
    // What a page waits for, such as the map under a camera that is being dragged, goes before.
    tbb::task_arena arena(tbb::task_arena::automatic, 1, tbb::task_arena::priority::low);
    const Progress progress = telling([this](const file::Value& data) { events_.tell("progress", data); }, "check",
                                      stop_, std::chrono::steady_clock::now());
    arena.execute([&] { work(progress); });
    if (result.stopped || stop_) return false;
    tell(site, name, file::answer_of(*site.project, result, asks));
    return true;
  };
  const auto verdicts = [&](const Progress& progress) {
    result = need::check(lit, {.remedies = false}, progress);
    if (!result.stopped) asks = loads::asks_if_said(lit);
  };
  if (stage("verdicts", verdicts))
    stage("remedies", [&](const Progress& progress) { need::add_remedies(lit, {}, result, progress); });
}

void Checker::tell(const Snapshot& site, const char* stage, file::Value answer) {
  events_.tell_and_keep("check",
                        file::Object{{"revision", site.revision}, {"stage", stage}, {"answer", std::move(answer)}});
}

}  // namespace sightfall::serve
