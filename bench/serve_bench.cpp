// SPDX-License-Identifier: GPL-3.0-or-later
// Requests a second of the workbench's server over loopback with four clients that keep their connections, beside bytes
// of the same number thrown back by a bare socket in the same run; and the files of the page's first view.
#include <fmt/format.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <filesystem>
#include <thread>
#include <vector>

#include "serve/test_client.h"
#include "serve/workbench.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;
using serve::testing::Client;
using serve::testing::request_text;

constexpr int kClients = 4;
constexpr int kRuns = 3;

/// Answers whatever comes on each connection with bytes of its own, a thread a connection.
class BareSocket {
 public:
  explicit BareSocket(std::string answer) : answer_{std::move(answer)}, socket_{socket(AF_INET, SOCK_STREAM, 0)} {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    if (bind(socket_, reinterpret_cast<const sockaddr*>(&address), size) != 0 || listen(socket_, kClients) != 0 ||
        getsockname(socket_, reinterpret_cast<sockaddr*>(&address), &size) != 0)
      throw std::runtime_error("no socket for the reference");
    port_ = ntohs(address.sin_port);
    for (int i = 0; i < kClients; ++i) threads_.emplace_back([this] { serve(); });
  }
  ~BareSocket() {
    for (std::thread& thread : threads_) thread.join();
    close(socket_);
  }
  BareSocket(const BareSocket&) = delete;
  BareSocket& operator=(const BareSocket&) = delete;
  uint16_t port() const { return port_; }

 private:
  void serve() const {
    const int one = accept(socket_, nullptr, nullptr);
    std::array<char, 4096> request{};
    while (recv(one, request.data(), request.size(), 0) > 0) send(one, answer_.data(), answer_.size(), MSG_NOSIGNAL);
    close(one);
  }

  const std::string answer_;
  int socket_;
  uint16_t port_ = 0;
  std::vector<std::thread> threads_;
};

/// Requests a second that all clients together get answered.
double rate(uint16_t port, const std::string& path, int requests) {
  std::atomic<int> answered{0};
  const bench::Stopwatch watch;
  std::vector<std::thread> threads;
  for (int i = 0; i < kClients; ++i)
    threads.emplace_back([&] {
      Client client(port);
      const std::string text = request_text(port, "GET", path);
      for (int n = 0; n < requests; ++n) {
        client.send(text);
        if (client.read().status == 200) ++answered;
      }
    });
  for (std::thread& thread : threads) thread.join();
  if (answered != kClients * requests) throw std::runtime_error("not every request was answered");
  return answered / watch.seconds();
}

double best_rate(uint16_t port, const std::string& path, int requests) {
  double best = 0;
  for (int run = 0; run < kRuns; ++run) best = std::max(best, rate(port, path, requests));
  return best;
}

/// An answer to this path as it went over the wire.
std::string answer_text(uint16_t port, const std::string& path) {
  const auto answer = serve::testing::ask(port, "GET", path);
  std::string text = "HTTP/1.1 200 OK\r\n";
  for (const auto& [name, value] : answer.headers) text += name + ": " + value + "\r\n";
  return text + "\r\n" + answer.body;
}

void compare(uint16_t port, const std::string& path, int requests) {
  const std::string text = answer_text(port, path);
  const double ours = best_rate(port, path, requests);
  double bare = 0;
  for (int run = 0; run < kRuns; ++run) {
    const BareSocket reference(text);
    bare = std::max(bare, rate(reference.port(), path, requests));
  }
  fmt::print("{:<12} {:>7} bytes  {:>6.0f} requests/s  a bare socket {:>6.0f}/s  ratio {:.2f}\n", path, text.size(),
             ours, bare, ours / bare);
}

/// What a browser fetches before it can show the site, one after another.
void first_view(uint16_t port) {
  double least = 1e300;
  size_t bytes = 0, files = 0;
  for (int run = 0; run < kRuns; ++run) {
    const bench::Stopwatch watch;
    Client client(port);
    bytes = files = 0;
    const auto fetch = [&](const std::string& path) {
      client.send(request_text(port, "GET", path, "Accept-Encoding: gzip\r\n"));
      auto answer = client.read();
      bytes += answer.body.size();
      ++files;
      return answer.body;
    };
    client.send(request_text(port, "GET", "/"));
    const std::string page = client.read().body;
    for (size_t at = page.find("\"/assets/"); at != std::string::npos; at = page.find("\"/assets/", at + 1))
      fetch(page.substr(at + 1, page.find('"', at + 1) - at - 1));
    for (const char* path : {"/api/start", "/api/site", "/api/schema", "/api/stock"}) fetch(path);
    least = std::min(least, watch.seconds());
  }
  fmt::print("first view: the page, {} further files and answers, {:.0f} kB, one after another: {:.1f} ms\n", files,
             static_cast<double>(bytes) / 1000, 1000 * least);
}

}  // namespace

int main() {
  const auto folder = std::filesystem::temp_directory_path() / "sightfall_serve_bench";
  std::filesystem::remove_all(folder);
  std::filesystem::copy(SIGHTFALL_SOURCE_DIR "/demo", folder, std::filesystem::copy_options::recursive);
  serve::WorkbenchOptions options;
  options.port = 0;
  options.site = (folder / "alder_lane.sightfall.json").string();
  {
    const auto workbench = serve::Workbench::open(options);
    if (!workbench) return 1;
    std::thread thread([&] { (*workbench)->run(); });
    const uint16_t port = (*workbench)->port();
    std::this_thread::sleep_for(std::chrono::seconds(20));  // until the site's first check is over
    compare(port, "/icon.svg", 10'000);
    compare(port, "/api/start", 2'000);
    compare(port, "/api/site", 500);
    first_view(port);
    (*workbench)->stop();
    thread.join();
  }
  std::filesystem::remove_all(folder);
  return 0;
}
