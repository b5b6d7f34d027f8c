// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/http_text.h"

#include <algorithm>
#include <boost/asio/buffer.hpp>
#include <boost/beast/core/string.hpp>
#include <boost/beast/http.hpp>
#include <limits>
#include <sstream>

namespace sightfall::serve {
namespace {

namespace http = boost::beast::http;

constexpr int kHttp11 = 11;
constexpr size_t kKeyCharacters = 24;  // 16 bytes in base64

bool same_letters(std::string_view a, std::string_view b) {
  return boost::beast::iequals({a.data(), a.size()}, {b.data(), b.size()});
}

bool is_among(std::string_view word, const std::string* list) {
  return list != nullptr && http::token_list{*list}.exists({word.data(), word.size()});
}

tl::unexpected<Refusal> wrong_request(int status, std::string text) {
  return tl::make_unexpected(Refusal{status, std::move(text)});
}

tl::unexpected<Refusal> wrong_request(boost::system::error_code fault) {
  if (fault == http::error::header_limit) return wrong_request(431, "found too large a head");
  if (fault == http::error::body_limit) return wrong_request(413, "found too large a body");
  return wrong_request(400, "found no request of HTTP: " + fault.message());
}

/// A key is 16 bytes in base64, which end in two signs of filling.
bool is_key(const std::string& text) {
  return text.size() == kKeyCharacters && text.ends_with("==") && std::all_of(text.begin(), text.end() - 2, [](char c) {
           return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '+' || c == '/';
         });
}

}  // namespace

const std::string* Request::header(std::string_view name) const {
  const auto found =
      std::find_if(headers.begin(), headers.end(), [&](const Header& one) { return same_letters(one.name, name); });
  return found == headers.end() ? nullptr : &found->value;
}

struct RequestReader::Parser : http::request_parser<http::string_body> {};

RequestReader::RequestReader(size_t largest_head) : largest_head_{largest_head} { begin(); }

RequestReader::~RequestReader() = default;

void RequestReader::begin() {
  request_ = {};
  parser_ = std::make_unique<Parser>();
  parser_->header_limit(static_cast<uint32_t>(largest_head_));
  allow_body(std::numeric_limits<size_t>::max());  // until the head says what is asked
}

tl::expected<RequestReader::Step, Refusal> RequestReader::next() {
  const bool had_head = parser_->is_header_done();
  if (had_head && parser_->is_done()) return Step::kWhole;
  parser_->eager(had_head);
  size_t used = 0;
  boost::system::error_code fault;
  while (used < bytes_.size() && !fault && !parser_->is_done() && parser_->is_header_done() == had_head)
    used += parser_->put(boost::asio::buffer(bytes_) + used, fault);
  bytes_.erase(0, used);
  if (fault && fault != http::error::need_more) return wrong_request(fault);
  if (!had_head && parser_->is_header_done()) return read_head();
  return parser_->is_done() ? Step::kWhole : Step::kMore;
}

tl::expected<RequestReader::Step, Refusal> RequestReader::read_head() {
  const auto& head = parser_->get();
  request_.method = std::string(head.method_string());
  for (const auto& field : head)
    request_.headers.push_back({std::string(field.name_string()), std::string(field.value())});
  auto target = parse_target({head.target().data(), head.target().size()});
  if (!target) return wrong_request(400, "found a path that is not plain");
  if (head.version() != kHttp11) return wrong_request(400, "found another version of HTTP; allowed: 1.1");
  if (head.count(http::field::host) != 1) return wrong_request(400, "found no Host, or several; needed is one");
  request_.target = std::move(*target);
  return Step::kHead;
}

std::optional<uint64_t> RequestReader::body_length() const {
  const auto length = parser_->content_length();
  return length ? std::optional<uint64_t>(*length) : std::nullopt;
}

bool RequestReader::has_body() const { return !parser_->is_done(); }

void RequestReader::allow_body(size_t largest) { parser_->body_limit(static_cast<uint64_t>(largest)); }

bool RequestReader::expects_word() const {
  const std::string* expected = request_.header("Expect");
  return expected != nullptr && same_letters(*expected, "100-continue");
}

bool RequestReader::keeps_alive() const { return parser_->keep_alive(); }

Request RequestReader::take() {
  request_.body = std::move(parser_->get().body());
  return std::move(request_);
}

std::string head_text(const Response& response, const std::vector<Header>& more, size_t bytes, bool last) {
  http::response<http::empty_body> head{static_cast<http::status>(response.status), kHttp11};
  for (const auto* headers : {&response.headers, &more})
    for (const Header& header : *headers) head.insert(header.name, header.value);
  if (head.result() != http::status::not_modified) head.content_length(bytes);
  head.keep_alive(!last);
  std::ostringstream text;
  text << head.base();
  return std::move(text).str();
}

bool asks_for_web_socket(const Request& head) { return is_among("websocket", head.header("Upgrade")); }

tl::expected<std::string, Refusal> web_socket_key(const Request& request) {
  if (!asks_for_web_socket(request) || !is_among("upgrade", request.header("Connection")))
    return wrong_request(400, "needed is a WebSocket");
  const std::string* version = request.header("Sec-WebSocket-Version");
  if (version == nullptr || *version != "13")
    return wrong_request(400, "found another version of WebSocket; allowed: 13");
  const std::string* key = request.header("Sec-WebSocket-Key");
  if (request.method != "GET" || key == nullptr || !is_key(*key))
    return wrong_request(400, "found no handshake of a WebSocket");
  return *key;
}

}  // namespace sightfall::serve
