// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/file_mark.h"

#include <sys/stat.h>

namespace sightfall::serve {

FileMark mark_of(const std::string& path) {
  struct stat facts {};
  if (::stat(path.c_str(), &facts) != 0) return {};
  return {facts.st_dev, facts.st_ino, static_cast<uint64_t>(facts.st_size), facts.st_mtim.tv_sec,
          facts.st_mtim.tv_nsec};
}

}  // namespace sightfall::serve
