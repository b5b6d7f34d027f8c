// SPDX-License-Identifier: GPL-3.0-or-later
// How HTTP/1.1 is written: requests out of bytes as they come, heads of answers into bytes. No sockets, no times.
//   Library  Boost.Beast's parser, only in http_text.cpp
//   Promise  the same bytes give the same requests in whatever pieces they come; what could be read in two ways
//            (several Hosts, two lengths, folded lines) is refused
//   Checked  http_text_test.cpp, http_attack_test.cpp; tests/fuzz/http_fuzz.cpp
#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "serve/http.h"

namespace sightfall::serve {

/// One request after another.
class RequestReader {
 public:
  enum class Step {
    kMore,   ///< bytes are needed
    kHead,   ///< all but the body is known
    kWhole,  ///< the request is there
  };

  explicit RequestReader(size_t largest_head);
  ~RequestReader();
  RequestReader(const RequestReader&) = delete;
  RequestReader& operator=(const RequestReader&) = delete;

  void put(std::string_view bytes) { bytes_ += bytes; }
  /// Whether bytes are there that no step has used yet.
  bool has_bytes() const { return !bytes_.empty(); }

  /// The next step of the request; each is told once. After kWhole, begin() the next.
  tl::expected<Step, Refusal> next();
  void begin();

  // From kHead on:

  /// Without its body, and without the address at which it came in.
  Request& head() { return request_; }
  /// What the head says of the body's length.
  std::optional<uint64_t> body_length() const;
  bool has_body() const;
  void allow_body(size_t largest);
  /// Whether the body comes only once it is asked for.
  bool expects_word() const;
  /// Whether another request may follow on the connection.
  bool keeps_alive() const;

  /// After kWhole.
  Request take();

 private:
  struct Parser;
  tl::expected<Step, Refusal> read_head();

  const size_t largest_head_;
  std::unique_ptr<Parser> parser_;
  Request request_;
  std::string bytes_;
};

/// The head of an answer with a body of that many bytes; `last`: no other follows on the connection.
std::string head_text(const Response& response, const std::vector<Header>& more, size_t bytes, bool last);

/// The `Sec-WebSocket-Key` of a handshake by RFC 6455, section 4.2.1; or why it is none.
tl::expected<std::string, Refusal> web_socket_key(const Request& request);
/// Whether the request asks to become a WebSocket, rightly or not.
bool asks_for_web_socket(const Request& head);

}  // namespace sightfall::serve
