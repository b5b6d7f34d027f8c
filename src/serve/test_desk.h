// SPDX-License-Identifier: GPL-3.0-or-later
// For tests: trees from text and what is in them, and a listener that waits for what the desk tells.
#pragma once
#include <gtest/gtest.h>

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "file/json.h"
#include "serve/desk.h"

namespace sightfall::serve::testing {

using file::List;
using file::Member;
using file::Object;
using file::Value;

inline constexpr std::chrono::seconds kLongest{600};  // a sanitized build on a busy machine, where judging is niced

inline const Value& at(const Value& value, const std::vector<std::string>& path) {
  static const Value kNone;
  const Value* here = &value;
  for (const std::string& step : path) {
    const Value* next = nullptr;
    if (const auto* list = here->as<List>()) {
      if (const size_t index = std::stoul(step); index < list->size()) next = &(*list)[index];
    } else if (const auto* object = here->as<Object>()) {
      for (const Member& member : *object)
        if (member.name == step) next = &member.value;
    }
    if (next == nullptr) return kNone;
    here = next;
  }
  return *here;
}

inline Value tree(const std::string& text) {
  Result<Value> value = file::parse_json(text, "test");
  EXPECT_TRUE(value.has_value()) << (value ? "" : value.error().text);
  return value ? *value : Value{};
}

/// Keeps what it is told.
class Ear : public Listener {
 public:
  void tell(std::string_view event, const std::shared_ptr<const std::string>& data) override {
    {
      const std::lock_guard lock(mutex_);
      told_.emplace_back(event, *data);
    }
    more_.notify_all();
  }

  /// The next event of the kind that is told, waited for.
  Value wait(
      const std::string& event, const std::function<bool(const Value&)>& right = [](const Value&) { return true; }) {
    std::unique_lock lock(mutex_);
    Value found;
    const bool there = more_.wait_for(lock, kLongest, [&] {
      for (; next_ < told_.size(); ++next_) {
        if (told_[next_].first != event) continue;
        found = tree(told_[next_].second);
        if (right(found)) {
          ++next_;
          return true;
        }
      }
      return false;
    });
    EXPECT_TRUE(there) << event;
    return found;
  }

 private:
  std::mutex mutex_;
  std::condition_variable more_;
  std::vector<std::pair<std::string, std::string>> told_;
  size_t next_ = 0;
};

}  // namespace sightfall::serve::testing
