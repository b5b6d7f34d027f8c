// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall serve [SITE]`
#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <thread>

#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "serve/workbench.h"

namespace sightfall::cli {
namespace {

/// For what is still being worked out at the end.
constexpr std::chrono::milliseconds kPatience{150};

Errors request_errors(const Given& given) {
  Errors errors;
  const double port = given.number("--port").value_or(0);
  if (port != std::floor(port))
    errors.push_back({ErrorKind::kRequest, "found a fraction; allowed: 0 to 65535", {"command line", "", "--port"}});
  if (given.has("--host") && !given.has("--listen"))
    errors.push_back({ErrorKind::kRequest,
                      "found it without --listen; without that only this machine can ask",
                      {"command line", "", "--host"}});
  return errors;
}

/// Work that is under way looks up only now and then. Nobody waits for its answer any longer, and what was edited is on
/// disk, so the program does not wait for it either.
void end_soon(int status) {
  std::thread([status] {
    std::this_thread::sleep_for(kPatience);
    std::_Exit(status);
  }).detach();
}

void say(const std::string& text) {
  std::fputs(text.c_str(), stdout);
  std::fflush(stdout);
}

}  // namespace

int run_serve(const Given& given) {
  if (const Errors errors = request_errors(given); !errors.empty()) return report(errors);
  std::string code;
  bool serving = false;
  serve::WorkbenchOptions options;
  options.site = given.text_or("SITE", "");
  options.port = static_cast<uint16_t>(given.number("--port").value_or(serve::kUsualPort));
  options.listen = given.text_or("--listen", "");
  options.hosts = given.names("--host");
  options.show_code = [&](const std::string& made) {
    code = made;
    if (serving) say(fmt::format("The next code: {}\n", code));
  };
  const auto workbench = serve::Workbench::open(options);
  if (!workbench) return report(workbench.error());
  say("The workbench is open. In a browser:\n");
  for (const std::string& address : (*workbench)->addresses()) say(fmt::format("  {}\n", address));
  if (!code.empty())
    say(
        fmt::format("Pair each browser with this code, good once and for ten minutes: {}\n"
                    "What goes over the network is not encrypted.\n",
                    code));
  say("Ctrl-C ends it; what was edited is saved.\n");
  serving = true;
  (*workbench)->run();
  const auto closed = (*workbench)->close();
  const int status = closed ? 0 : report(closed.error());
  if (!closed) std::fputs("Its history has the edits; they are written when it is opened again.\n", stderr);
  end_soon(status);
  return status;
}

}  // namespace sightfall::cli
