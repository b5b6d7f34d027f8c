// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/network.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>

namespace sightfall {
namespace {

constexpr int kWidest = 8, kNarrowest = 29;

uint32_t bits_of(int prefix) { return ~uint32_t{0} << (32 - prefix); }

/// A number without sign or leading zeros, taken off the front of a text.
std::optional<uint32_t> take_number(std::string_view& text, uint32_t most) {
  uint32_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const auto digits = static_cast<size_t>(end - text.data());
  if (error != std::errc{} || number > most || (digits > 1 && text.front() == '0')) return std::nullopt;
  text.remove_prefix(digits);
  return number;
}

bool take(std::string_view& text, char mark) {
  if (text.empty() || text.front() != mark) return false;
  text.remove_prefix(1);
  return true;
}

std::optional<Network> parsed(std::string_view text) {
  Network network;
  for (int part = 0; part < 4; ++part) {
    if (part > 0 && !take(text, '.')) return std::nullopt;
    const auto number = take_number(text, 255);
    if (!number) return std::nullopt;
    network.base = network.base << 8 | *number;
  }
  if (!take(text, '/')) return std::nullopt;
  const auto prefix = take_number(text, 32);
  if (!prefix || !text.empty()) return std::nullopt;
  network.prefix = static_cast<int>(*prefix);
  return network;
}

}  // namespace

Result<Network> network_of(const std::string& text) {
  const auto network = parsed(text);
  if (!network || network->prefix < kWidest || network->prefix > kNarrowest)
    return failure(ErrorKind::kRequest,
                   fmt::format("found \"{}\"; allowed is an IPv4 network such as 192.168.50.0/24, /{} to /{}", text,
                               kWidest, kNarrowest));
  if ((network->base & ~bits_of(network->prefix)) != 0)
    return failure(ErrorKind::kRequest, fmt::format("found \"{}\", which is an address in the network {}/{}", text,
                                                    dotted(network->base & bits_of(network->prefix)), network->prefix));
  return *network;
}

std::string dotted(uint32_t address) {
  return fmt::format("{}.{}.{}.{}", address >> 24, (address >> 16) & 0xFF, (address >> 8) & 0xFF, address & 0xFF);
}

std::string mask_of(const Network& network) { return dotted(bits_of(network.prefix)); }

uint32_t usable_in(const Network& network) { return ~bits_of(network.prefix) - 1; }

bool overlap(const Network& a, const Network& b) {
  const uint32_t bits = bits_of(std::min(a.prefix, b.prefix));
  return (a.base & bits) == (b.base & bits);
}

}  // namespace sightfall
