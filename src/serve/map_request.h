// SPDX-License-Identifier: GPL-3.0-or-later
// What a page asks of the import of a map beside the file itself, which is the request's body.
//   Promise  the file's name leads nowhere: of what was sent only plain letters, digits, `-` and `_` are kept, and an
//            ending of the list; each value that reaches the `import` verb has been read by its description first
//   Checked  map_request_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "file/json.h"
#include "serve/target.h"

namespace sightfall::serve {

enum class MapKind { kFootprints, kTerrain };

struct MapRequest {
  MapKind kind = MapKind::kFootprints;
  std::string sent;                  ///< the file's name as the page told it, shown in what is said of it
  std::string file;                  ///< the name that its copy gets
  std::string words;                 ///< for the history
  std::optional<std::string> id;     ///< of the job, whose progress is told
  std::vector<std::string> options;  ///< of the `import` verb, such as `--height=6`
  file::Value anchor;                ///< for a site that has none: latitude and longitude; or null
};

Checked<MapRequest> read_map_request(MapKind kind, const Target& target);

/// A field of the request and the option that it becomes, as errors of the import name it.
struct MapOption {
  std::string field, option;
};
const std::vector<MapOption>& map_options();

}  // namespace sightfall::serve
