// SPDX-License-Identifier: GPL-3.0-or-later
// A file that is compiled into the program (cmake/embed_folder.cmake).
#pragma once
#include <string_view>

namespace sightfall::embedded {

struct File {
  std::string_view name;  ///< its path below the folder
  std::string_view bytes;
};

}  // namespace sightfall::embedded
