// SPDX-License-Identifier: GPL-3.0-or-later
// A project: the site, what must be seen on it, and the cameras that should do it. One document on disk
// (file/project.h).
#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "base/check.h"
#include "camera/camera.h"
#include "camera/sheet.h"
#include "detail/levels.h"
#include "detail/typical.h"
#include "light/candela.h"
#include "light/surfaces.h"
#include "need/need.h"
#include "site/site.h"

namespace sightfall::need {

enum class Units { kMetres, kFeet };

struct Settings {
  std::string level_table;                       ///< by name; empty: the newest of data/levels.json
  std::vector<detail::LevelTable> level_tables;  ///< the user's own, beside those of the standard
  detail::LevelTable levels;                     ///< the table in force: the reader looks level_table up
  light::Materials materials;                    ///< data/materials.json, which the reader puts here
  std::vector<site::Cable> cables;               ///< data/cables.json, likewise
  Units units = Units::kMetres;
  std::string currency;       ///< of all prices, as they are printed; empty: not named
  std::string house_network;  ///< that which is not the cameras', such as `192.168.178.0/24`; empty: not named
  Frequency mains{50};        ///< that lamps are fed with
  Length sample_spacing{1};   ///< between samples of a place; a large place is sampled coarser, a small one finer
  detail::Typical typical;    ///< assumptions, each of which the document may replace
};

/// A photometric file that lamps of the site name, as it was read beside the document.
struct Photometry {
  std::string name;  ///< of the file, as the lamps name it
  light::Candela candela;
};

/// How long what was recorded is kept.
struct Keeping {
  std::optional<Time> wanted;  ///< at least
  std::optional<Time> most;    ///< the user's law sets a cap
  std::string reason;          ///< of the cap, as it is printed
};

struct Project {
  std::string name;
  std::string about;
  site::Site site;
  std::vector<site::Condition> conditions;
  std::vector<Need> needs;
  std::vector<camera::Camera> cameras;
  std::vector<camera::Sheet> catalogue;
  std::vector<Photometry> photometry;
  Keeping keeping;
  Settings settings;
};

/// The first of the elements that carries the name, or null.
template <class Named>
const Named* find_named(const std::vector<Named>& all, const std::string& name) {
  for (const Named& one : all)
    if (one.name == name) return &one;
  return nullptr;
}

/// The element that carries the name, in a valid project, whose reader refuses names of what is not there.
template <class Named>
const Named& the_named(const std::vector<Named>& all, const std::string& name) {
  const Named* found = find_named(all, name);
  CHECK_EQ(found != nullptr, true);
  return *found;
}

/// Whether a list names it, or names nothing, which stands for all.
inline bool asked_for(const std::vector<std::string>& names, const std::string& name) {
  return names.empty() || std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace sightfall::need
