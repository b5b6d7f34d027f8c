// SPDX-License-Identifier: GPL-3.0-or-later
// Events to everyone who listens to the desk, in one order.
//   Checked  desk_test.cpp
#pragma once
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "file/json.h"
#include "serve/desk.h"

namespace sightfall::serve {

/// The value on one line.
std::string one_line(const file::Value& value);

class Events {
 public:
  void tell(std::string_view event, const file::Value& data);
  /// The same, kept and told to every later listener after its `hello` until another takes its place.
  void tell_and_keep(std::string_view event, const file::Value& data);
  void forget_kept();

  void add(Listener& listener, const file::Value& hello);
  void remove(Listener& listener);

 private:
  using Data = std::shared_ptr<const std::string>;
  void send(std::string_view event, const Data& data);

  std::mutex mutex_;
  std::vector<Listener*> listeners_;
  std::optional<std::pair<std::string, Data>> kept_;
};

}  // namespace sightfall::serve
