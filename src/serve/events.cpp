// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/events.h"

#include <algorithm>
#include <utility>

namespace sightfall::serve {
namespace {

using file::List;
using file::Member;
using file::Object;
using file::Value;

void print(const Value& value, std::string& text) {
  if (const auto* list = value.as<List>()) {
    const char* before = "[";
    for (const Value& item : *list) {
      text += std::exchange(before, ",");
      print(item, text);
    }
    text += list->empty() ? "[]" : "]";
  } else if (const auto* object = value.as<Object>()) {
    const char* before = "{";
    for (const Member& member : *object) {
      text += std::exchange(before, ",");
      text += file::print_text(member.name) + ':';
      print(member.value, text);
    }
    text += object->empty() ? "{}" : "}";
  } else if (const auto* string = value.as<std::string>()) {
    text += file::print_text(*string);
  } else if (const auto* number = value.as<double>()) {
    text += file::print_number(*number);
  } else if (const auto* flag = value.as<bool>()) {
    text += *flag ? "true" : "false";
  } else {
    text += "null";
  }
}

}  // namespace

std::string one_line(const Value& value) {
  std::string text;
  print(value, text);
  return text;
}

void Events::send(std::string_view event, const Data& data) {
  for (Listener* listener : listeners_) listener->tell(event, data);
}

void Events::tell(std::string_view event, const Value& data) {
  const auto line = std::make_shared<const std::string>(one_line(data));
  const std::lock_guard lock(mutex_);
  send(event, line);
}

void Events::tell_and_keep(std::string_view event, const Value& data) {
  const auto line = std::make_shared<const std::string>(one_line(data));
  const std::lock_guard lock(mutex_);
  kept_ = {std::string(event), line};
  send(event, line);
}

void Events::forget_kept() {
  const std::lock_guard lock(mutex_);
  kept_.reset();
}

void Events::add(Listener& listener, const Value& hello) {
  const auto line = std::make_shared<const std::string>(one_line(hello));
  const std::lock_guard lock(mutex_);
  listeners_.push_back(&listener);
  listener.tell("hello", line);
  if (kept_) listener.tell(kept_->first, kept_->second);
}

void Events::remove(Listener& listener) {
  const std::lock_guard lock(mutex_);
  listeners_.erase(std::remove(listeners_.begin(), listeners_.end(), &listener), listeners_.end());
}

}  // namespace sightfall::serve
