// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall serve`: the page, the wire and who may use them, put together.
//   Checked  workbench_test.cpp; tests/case
#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "serve/api.h"
#include "serve/guard.h"
#include "serve/http.h"
#include "serve/pages.h"
#include "serve/router.h"

namespace sightfall::serve {

inline constexpr uint16_t kUsualPort = 8246;

struct WorkbenchOptions {
  std::string site = {};  ///< path of the document to open; empty: the page asks
  uint16_t port = kUsualPort;
  std::string listen = {};  ///< address of this machine in a network; empty: loopback alone
  std::vector<std::string> hosts = {};
  std::function<void(const std::string& code)> show_code = [](const std::string&) {};
  Limits limits = {};
  std::string program = {};  ///< whose `import` verb reads maps; empty: this one
};

/// Whether the request may be made (by the guard), who takes it, and how large a body it may bring.
Admission admit(const Guard& guard, const Router& router, const Request& head);

class Workbench {
 public:
  /// Opens the site and listens.
  static Checked<std::unique_ptr<Workbench>> open(const WorkbenchOptions& options);

  /// Where a browser finds the page, the nearest first.
  std::vector<std::string> addresses() const;
  uint16_t port() const { return server_->port(); }
  /// Serves until stop() or an interrupt.
  void run() { server_->run(); }
  /// After run(): what was edited is on disk, and the history closed. Where the document could not be written, the
  /// history has the edits, and the next opening writes them.
  Checked<void> close() { return api_.desk().close(); }
  void stop() { server_->stop(); }

 private:
  explicit Workbench(const WorkbenchOptions& options);
  Service service();
  void handle(Request request, const Caller& caller);
  void pair(const Request& request, const Caller& caller);

  const std::vector<std::string> names_;
  Guard guard_;
  const Pages pages_;
  Api api_;
  Router router_;
  std::unique_ptr<Server> server_;
};

}  // namespace sightfall::serve
