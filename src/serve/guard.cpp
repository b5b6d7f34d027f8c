// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/guard.h"

#include <sodium.h>

#include <algorithm>

#include "base/check.h"
#include "serve/http_text.h"

namespace sightfall::serve {
namespace {

/// Neither 0 and O nor 1, I and L, which are misread.
constexpr std::string_view kLetters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
constexpr size_t kCodeLength = 8;  // 31^8 = 8.5e11; at five a minute half of them take 160,000 years
constexpr size_t kSecretBytes = 32;
constexpr size_t kLongestTab = 64;

char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

std::string capitals(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(), capital);
  return result;
}

/// The code without what people put between its letters.
std::string plain_code(std::string_view text) {
  std::string code;
  for (const char c : text)
    if (c != '-' && c != ' ') code += capital(c);
  return code;
}

bool is_word(std::string_view text) {
  return !text.empty() && text.size() <= kLongestTab && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= '0' && c <= '9') || (capital(c) >= 'A' && capital(c) <= 'Z') || c == '-' || c == '_';
  });
}

bool is_pairing(const Request& head) { return head.method == "POST" && head.target.path() == "/api/pair"; }

/// An address as it stands in a URL.
std::string in_url(const std::string& address) {
  return address.find(':') == std::string::npos ? address : "[" + address + "]";
}

std::string random_secret() {
  std::array<unsigned char, kSecretBytes> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  std::array<char, 2 * kSecretBytes + 1> text{};
  return sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
}

}  // namespace

bool is_api(const Request& head) { return !head.target.segments.empty() && head.target.segments.front() == "api"; }

Guard::Guard(Door door) : door_{std::move(door)} {
  CHECK_LE(0, sodium_init());
  randombytes_buf(key_.data(), key_.size());
  if (door_.network) make_code();
}

std::optional<Refusal> Guard::refusal(const Request& head) const {
  const std::string* host = head.header("Host");
  if (host == nullptr || !is_ours(*host, head))
    return Refusal{403, "found another host; allowed: the address that `sightfall serve` printed"};
  const std::string* origin = head.header("Origin");
  if (origin != nullptr && capitals(*origin) != capitals("http://" + *host))
    return Refusal{403, "found a page of another site"};
  if (origin == nullptr && asks_for_web_socket(head)) return Refusal{403, "found a WebSocket without Origin"};
  const std::string* site = head.header("Sec-Fetch-Site");
  if (is_api(head) && site != nullptr && *site != "same-origin" && *site != "none")
    return Refusal{403, "found a page of another site"};
  const bool reads = head.method == "GET" || head.method == "HEAD";
  const std::string* tab = head.header(kTabHeader);
  if (!reads && (tab == nullptr || !is_word(*tab)))
    return Refusal{403, std::string("found no word of the page's own in ") + kTabHeader};
  if (door_.network && is_api(head) && !is_pairing(head) && !paired(head))
    return Refusal{401, "pair first, with the code that stands on the terminal"};
  return std::nullopt;
}

/// A name of loopback, one that was given, or the very address at which the request came in: a foreign page can make
/// names lead here, but not addresses.
bool Guard::is_ours(std::string_view host, const Request& head) const {
  const std::string end = ":" + std::to_string(port_);
  std::string name = capitals(host);
  if (name.size() > end.size() && name.ends_with(end))
    name.resize(name.size() - end.size());
  else if (port_ != 80)
    return false;
  const auto is = [&](const std::string& one) { return name == capitals(in_url(one)); };
  return is("localhost") || is("127.0.0.1") || is("::1") || std::any_of(door_.names.begin(), door_.names.end(), is) ||
         (door_.network && is(head.local_address));
}

bool Guard::paired(const Request& head) const {
  const std::string* cookies = head.header("Cookie");
  if (cookies == nullptr) return false;
  const std::string begin = cookie_name() + "=";
  const size_t at = cookies->find(begin);
  if (at == std::string::npos) return false;
  const Hash found = hashed(std::string_view(*cookies).substr(at + begin.size(), 2 * kSecretBytes));
  int same = 0;
  for (const Hash& one : paired_) same += sodium_memcmp(one.data(), found.data(), found.size()) == 0 ? 1 : 0;
  return same > 0;
}

tl::expected<Header, Refusal> Guard::pair(std::string_view code) {
  if (!door_.network) return tl::make_unexpected(Refusal{400, "nobody has to pair on this machine"});
  const Moment now = door_.now();
  if (closed_ && now < *closed_ + kPairingClosed)
    return tl::make_unexpected(Refusal{429, "found too many wrong codes; wait a minute"});
  if (closed_) {
    closed_.reset();
    wrong_ = 0;
  }
  if (now >= code_made_ + kCodeLasts) {
    make_code();
    return tl::make_unexpected(Refusal{401, "the code is too old; a new one stands on the terminal"});
  }
  const Hash found = hashed(plain_code(code));
  if (sodium_memcmp(code_.data(), found.data(), found.size()) != 0) {
    if (++wrong_ >= kMostWrongCodes) closed_ = now;
    return tl::make_unexpected(Refusal{401, "found another code than the one on the terminal"});
  }
  const std::string secret = random_secret();
  paired_.push_back(hashed(secret));
  if (paired_.size() > kMostPaired) paired_.pop_front();
  wrong_ = 0;
  make_code();
  return Header{"Set-Cookie", cookie_name() + "=" + secret + "; Path=/; HttpOnly; SameSite=Strict"};
}

Guard::Hash Guard::hashed(std::string_view secret) const {
  static_assert(std::tuple_size_v<Hash> == crypto_generichash_BYTES);
  std::vector<unsigned char> bytes(secret.begin(), secret.end());
  Hash hash{};
  crypto_generichash(hash.data(), hash.size(), bytes.data(), bytes.size(), key_.data(), key_.size());
  return hash;
}

void Guard::make_code() {
  std::string code;
  for (size_t i = 0; i < kCodeLength; ++i)
    code += kLetters[randombytes_uniform(static_cast<uint32_t>(kLetters.size()))];
  code_ = hashed(code);
  code_made_ = door_.now();
  door_.show(code.substr(0, kCodeLength / 2) + "-" + code.substr(kCodeLength / 2));
}

/// Cookies of one machine are shared by all its ports.
std::string Guard::cookie_name() const { return "sightfall_" + std::to_string(port_); }

std::vector<Header> security_headers() {
  return {{"Content-Security-Policy",
           "default-src 'self'; img-src 'self' blob: data:; style-src 'self' 'unsafe-inline'; frame-ancestors 'none'; "
           "base-uri 'none'; form-action 'none'"},
          {"X-Content-Type-Options", "nosniff"},
          {"Referrer-Policy", "no-referrer"},
          {"Cross-Origin-Opener-Policy", "same-origin"},
          {"Cross-Origin-Resource-Policy", "same-origin"}};
}

}  // namespace sightfall::serve
