// SPDX-License-Identifier: GPL-3.0-or-later
// Who may ask: docs/wire.md, section "Who may ask".
//   Model    a page of another site cannot reach the server by any name it gives this machine (Host), nor as itself
//            (Origin, Sec-Fetch-Site), nor by a form (the tab's header). A WebSocket, which browsers open for any page
//            and without that header, must have an Origin. From a network a cookie is needed besides, which pairing
//            gives for a code that stands on the terminal
//   Library  libsodium: random bytes of the system, BLAKE2b keyed anew for each run, comparison in constant time
//   Limits   a cookie lasts as long as the server runs; kMostPaired devices, then the oldest must pair again. What goes
//            over a network is not encrypted: who can listen in on it can read
//   Threads  the serving one
//   Checked  guard_test.cpp, http_attack_test.cpp
#pragma once
#include <array>
#include <chrono>
#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "serve/http.h"

namespace sightfall::serve {

inline constexpr std::chrono::minutes kCodeLasts{10};
inline constexpr std::chrono::minutes kPairingClosed{1};
inline constexpr int kMostWrongCodes = 5;
inline constexpr size_t kMostPaired = 32;
inline constexpr const char* kTabHeader = "X-Sightfall-Tab";

/// Whether it asks for what the wire has, and not for the page.
bool is_api(const Request& head);

class Guard {
 public:
  using Moment = std::chrono::steady_clock::time_point;

  struct Door {
    bool network = false;            ///< who asks must have paired
    std::vector<std::string> names;  ///< that the server goes by besides those of loopback
    /// Shows a new code to who sits at the machine.
    std::function<void(const std::string& code)> show = [](const std::string&) {};
    std::function<Moment()> now = [] { return std::chrono::steady_clock::now(); };
  };

  explicit Guard(Door door);

  /// The port is known only once the server listens.
  void set_port(uint16_t port) { port_ = port; }

  std::optional<Refusal> refusal(const Request& head) const;

  /// The cookie's header for the right code, or why not.
  tl::expected<Header, Refusal> pair(std::string_view code);

 private:
  using Hash = std::array<unsigned char, 32>;

  bool is_ours(std::string_view host, const Request& head) const;
  bool paired(const Request& head) const;
  Hash hashed(std::string_view secret) const;
  void make_code();
  std::string cookie_name() const;

  const Door door_;
  uint16_t port_ = 0;
  Hash key_{};
  Hash code_{};
  Moment code_made_{};
  int wrong_ = 0;
  std::optional<Moment> closed_;
  std::deque<Hash> paired_;
};

/// What every answer has.
std::vector<Header> security_headers();

}  // namespace sightfall::serve
