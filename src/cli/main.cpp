// SPDX-License-Identifier: GPL-3.0-or-later
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <system_error>

#include "cli/parse.h"
#include "cli/terminal.h"

namespace {

using namespace sightfall;

int run(const std::vector<std::string>& words) {
  const Checked<cli::Request> request = cli::parse(words);
  if (!request) return cli::report(request.error());
  if (request->verb != nullptr) return request->verb->run(request->given);
  std::fputs(request->print.c_str(), request->status == 0 ? stdout : stderr);
  return request->status;
}

}  // namespace

int main(int argc, char** argv) {
  // A file that grows beyond what the system allows is then an error of writing like a full disk, not the end.
  std::signal(SIGXFSZ, SIG_IGN);
  const int status = run({argv + (argc > 0 ? 1 : 0), argv + argc});
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0)
    return cli::report(Error{ErrorKind::kWrite,
                             std::string("cannot be written: ") + std::generic_category().message(errno),
                             {"standard output", "", ""}});
  return status;
}
