// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/session.h"

#include <utility>

namespace sightfall::serve {
namespace {

/// What a refused sender may still send, so that it comes to read why: closing at once would take the answer back.
constexpr size_t kUnread = size_t{256} << 20;
constexpr std::chrono::milliseconds kUnreadTime{5'000};
constexpr const char* kTooSlow = "the request came too slowly";

}  // namespace

Session::Session(Room& room, std::shared_ptr<Line> line)
    : room_{room}, line_{std::move(line)}, reader_{room.limits.header_bytes} {}

void Session::await_request() {
  does_ = Does::kRead;
  wait();
  reader_.begin();
  head_alone_ = false;
  begun_ = reader_.has_bytes();
  if (!begun_) {
    close_after(room_.limits.silent);
    return read();
  }
  refuse_after(room_.limits.header, 408, kTooSlow);
  advance();
}

void Session::close() {
  if (std::exchange(closed_, true)) return;
  line_->close();
  forget();
  if (channel_ != nullptr) std::exchange(channel_, nullptr)->close();
  room_.sessions.erase(shared_from_this());
}

void Session::close_after(std::chrono::milliseconds time) {
  line_->ring_after(time, [self = shared_from_this()] { self->close(); });
}

void Session::refuse_after(std::chrono::milliseconds time, int status, const char* text) {
  line_->ring_after(time, [self = shared_from_this(), status, text] { self->refuse(status, text); });
}

void Session::wait() {
  waiting_ = true;
  since_ = std::chrono::steady_clock::now();
}

void Session::read() {
  if (std::exchange(reading_, true)) return;
  line_->read([self = shared_from_this()](std::string_view bytes) {
    self->reading_ = false;
    self->came(bytes);
  });
}

void Session::came(std::string_view bytes) {
  if (bytes.empty() || does_ == Does::kStream) return close();
  if (does_ == Does::kEnd) {
    unread_bytes_ += bytes.size();
    return unread_bytes_ > kUnread ? close() : read();
  }
  if (!std::exchange(begun_, true)) refuse_after(room_.limits.header, 408, kTooSlow);
  reader_.put(bytes);
  advance();
}

void Session::advance() {
  const auto step = reader_.next();
  if (!step) return refuse(step.error().status, step.error().text);
  if (*step == RequestReader::Step::kMore) return read();
  *step == RequestReader::Step::kHead ? take_head() : handle();
}

void Session::take_head() {
  waiting_ = false;
  Request& head = reader_.head();
  head.local_address = line_->local();
  head_alone_ = head.method == "HEAD";
  socket_key_ = web_socket_key(head);
  Admission admission = room_.service.admit(head);
  if (admission.refusal) return send(std::move(*admission.refusal), reader_.has_body() ? After::kEnd : After::kNext);
  reader_.has_body() ? take_body(admission.largest_body) : handle();
}

void Session::take_body(size_t largest) {
  const auto length = reader_.body_length();
  if (length && *length > largest)
    return refuse(413, "found a body of " + std::to_string(*length) + " bytes; allowed: " + std::to_string(largest));
  promised_ = length ? static_cast<size_t>(*length) : largest;
  room_.bodies += promised_;
  if (room_.bodies > room_.limits.bodies) return refuse(503, "found too many large requests at once; try again");
  reader_.allow_body(largest);
  refuse_after(room_.limits.body, 408, kTooSlow);
  if (!reader_.expects_word()) return advance();
  write("HTTP/1.1 100 Continue\r\n\r\n", {}, &Session::advance);
}

void Session::handle() {
  does_ = Does::kServe;
  refuse_after(room_.limits.answer, 503, "the answer took too long");
  const auto exchange = std::make_shared<Exchange>(room_.link, weak_from_this(), ++number_, room_.limits.stream_bytes);
  gone_ = exchange->gone();
  line_->watch([gone = gone_] { *gone = true; });
  room_.service.handle(reader_.take(), Caller(exchange));
}

/// The request is no longer waited for.
void Session::forget() {
  if (gone_ != nullptr) *std::exchange(gone_, nullptr) = true;
  room_.bodies -= std::exchange(promised_, 0);
}

void Session::answer(std::uint64_t number, std::optional<Response> response) {
  if (gone_ == nullptr || number != number_) return;
  send(response ? std::move(*response) : room_.service.fault(500, "no answer was given: our fault"), After::kNext);
}

void Session::refuse(int status, const std::string& text) { send(room_.service.fault(status, text), After::kEnd); }

void Session::send(Response response, After after) {
  if (writing_) return close();
  const bool last = after == After::kEnd || !reader_.keeps_alive();
  forget();
  waiting_ = false;
  if (last) does_ = Does::kEnd;
  std::string head = head_text(response, room_.service.headers, response.body.size(), last);
  if (head_alone_) response.body.clear();
  close_after(room_.limits.write);
  write(std::move(head), std::move(response.body), last ? &Session::end : &Session::await_request);
}

void Session::write(std::string head, std::string body, void (Session::*then)()) {
  writing_ = true;
  line_->write(std::move(head), std::move(body), [self = shared_from_this(), then](bool whole) {
    self->writing_ = false;
    whole ? ((*self).*then)() : self->close();
  });
}

/// Says that nothing more comes, and waits for the other end to have understood.
void Session::end() {
  if (!line_->end()) return close();
  wait();
  close_after(kUnreadTime);
  read();
}

void Session::stream(std::uint64_t number, const std::shared_ptr<Channel>& channel) {
  if (gone_ == nullptr || number != number_) return channel->close();
  if (!*socket_key_ || reader_.has_bytes()) {
    channel->close();
    return refuse(400, *socket_key_ ? "found more than a handshake" : socket_key_->error().text);
  }
  forget();
  channel_ = channel;
  does_ = Does::kStream;
  close_after(room_.limits.write);
  writing_ = true;
  line_->become_web_socket(**socket_key_, room_.service.headers, room_.limits.ping,
                           [self = shared_from_this()](bool whole) {
                             self->writing_ = false;
                             if (!whole) return self->close();
                             self->read();
                             self->write_events();
                           });
}

void Session::flush() {
  if (channel_ != nullptr && !writing_) write_events();
}

void Session::write_events() {
  auto message = channel_->take();
  if (!message) return line_->ring_no_more();
  close_after(room_.limits.write);
  write({}, std::move(*message), &Session::write_events);
}

}  // namespace sightfall::serve
