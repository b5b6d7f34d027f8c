// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs' bodies, one file a verb. Each returns the exit status: 0 done (for `check`: every need met), 1 some need
// missed or marginal, 2 bad input.
#pragma once

namespace sightfall::cli {

class Given;

int run_check(const Given& given);
int run_card(const Given& given);
int run_walk(const Given& given);
int run_loads(const Given& given);
int run_papers(const Given& given);
int run_import_footprints(const Given& given);
int run_import_terrain(const Given& given);
int run_serve(const Given& given);
int run_completion(const Given& given);

}  // namespace sightfall::cli
