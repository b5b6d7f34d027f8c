// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/exchange.h"

namespace sightfall::serve {

std::string message_of(std::string_view event, std::string_view data) {
  return R"({"event":")" + std::string(event) + R"(","data":)" + std::string(data) + '}';
}

void Link::post(Work work) {
  const std::lock_guard lock(mutex_);
  if (post_) post_(std::move(work));
}

void Link::cut() {
  const std::lock_guard lock(mutex_);
  post_ = nullptr;
}

Exchange::~Exchange() { answer(std::nullopt); }

void Exchange::answer(std::optional<Response> response) {
  if (answered_.exchange(true)) return;
  link_->post([connection = connection_, number = number_, response = std::move(response)]() mutable {
    if (const auto there = connection.lock()) there->answer(number, std::move(response));
  });
}

std::shared_ptr<Channel> Exchange::stream(std::function<void()> closed) {
  auto channel = std::make_shared<Channel>(link_, connection_, stream_bytes_, std::move(closed));
  if (answered_.exchange(true)) return channel;
  link_->post([connection = connection_, number = number_, channel] {
    if (const auto there = connection.lock())
      there->stream(number, channel);
    else
      channel->close();
  });
  return channel;
}

void Channel::send(std::string_view event, const std::shared_ptr<const std::string>& data) {
  const std::lock_guard lock(mutex_);
  if (!open_) return;
  const bool too_slow = bytes_ > most_;
  if (too_slow) {
    open_ = false;
    waiting_.clear();
  } else {
    waiting_.push_back({std::string(event), data});
    bytes_ += data->size();
    if (std::exchange(told_, true)) return;
  }
  link_->post([connection = connection_, too_slow] {
    if (const auto there = connection.lock()) too_slow ? there->close() : there->flush();
  });
}

std::optional<std::string> Channel::take() {
  const std::lock_guard lock(mutex_);
  if (waiting_.empty()) {
    told_ = false;
    return std::nullopt;
  }
  const Event event = std::move(waiting_.front());
  waiting_.pop_front();
  bytes_ -= event.data->size();
  return message_of(event.name, *event.data);
}

void Channel::close() {
  std::function<void()> closed;
  {
    const std::lock_guard lock(mutex_);
    open_ = false;
    waiting_.clear();
    closed = std::exchange(closed_, nullptr);
  }
  if (closed) closed();
}

void Stream::send(std::string_view event, const std::shared_ptr<const std::string>& data) const {
  channel_->send(event, data);
}

void Caller::answer(Response response) const { exchange_->answer(std::move(response)); }

Stream Caller::stream(std::function<void()> closed) const { return Stream(exchange_->stream(std::move(closed))); }

std::shared_ptr<const std::atomic<bool>> Caller::gone() const { return exchange_->gone(); }

}  // namespace sightfall::serve
