// SPDX-License-Identifier: GPL-3.0-or-later
// The page's files, which are part of the program (web/dist, made by tools/web before the build).
//   Promise  files whose name carries a hash of their content are kept by the browser for good, the others are asked
//            for anew and not sent again while they are the same; compressed where the build compressed them and the
//            browser takes it
//   Checked  pages_test.cpp
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "serve/http.h"

namespace sightfall::serve {

struct PageFile {
  std::string_view name;  ///< such as `assets/index-1a2b3c4d.js`
  std::string_view bytes;
};

class Pages {
 public:
  /// Those of this program; a page that says how to build them when there are none.
  Pages();
  explicit Pages(std::vector<PageFile> files);

  /// The answer to a request that reads; nothing when there is no such file.
  std::optional<Response> find(const Request& request) const;

 private:
  struct Kept {
    std::string name, type, tag;
    std::string_view bytes, compressed;
    bool hashed = false;
  };

  std::vector<Kept> files_;
};

}  // namespace sightfall::serve
