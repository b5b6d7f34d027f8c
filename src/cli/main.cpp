// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>

#include "cli/parse.h"
#include "cli/terminal.h"

int main(int argc, char** argv) {
  using namespace sightfall;
  const Result<cli::Request> request = cli::parse(argc, argv);
  if (!request) return cli::report(request.error());
  if (request->verb == nullptr) {
    std::fputs(request->print.c_str(), stdout);
    return 0;
  }
  return request->verb->run(request->given);
}
