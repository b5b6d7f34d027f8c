// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as answers write them: rounded to what they can mean, so that they do not differ in digits nobody measured.
//   Checked  answers_test.cpp, walk_answer_test.cpp
#pragma once
#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "detail/limit.h"
#include "file/json.h"
#include "geom/vec.h"
#include "need/check.h"
#include "unit/quantity.h"

namespace sightfall::file {

inline constexpr PixelDensity kPixelPerMetre{1};

/// `parts` a unit: dividing by it gives the double nearest to the decimal, which prints as the decimal. What is not
/// finite is null.
inline Value rounded(double number, double parts) {
  return std::isfinite(number) ? Value{std::round(number * parts) / parts} : Value{};
}
inline Value metres(Length length) { return rounded(length.si(), 1000); }
inline Value metres(const std::optional<Length>& length) { return length ? metres(*length) : Value{}; }
inline Value density(PixelDensity d) { return rounded(d.in(kPixelPerMetre), 100); }
inline Value share(double value) { return rounded(value, 10000); }
/// Of the plan, or of a plane; `parts` a metre.
inline Value point(geom::Vec2 p, double parts = 1000) { return List{rounded(p.x, parts), rounded(p.y, parts)}; }
inline Value point(geom::Vec3 p) { return List{rounded(p.x, 1000), rounded(p.y, 1000), rounded(p.z, 1000)}; }
inline Value text_or_null(std::string_view text) { return text.empty() ? Value{} : Value{text}; }
inline Value limit_or_null(detail::Limit limit) {
  return limit == detail::Limit::kNone ? Value{} : Value{detail::in_words(limit)};
}

template <class Quantity, class ToValue>
Value range(const Ranged<Quantity>& r, ToValue to_value) {
  return Object{{"low", to_value(r.low)}, {"nominal", to_value(r.nominal)}, {"high", to_value(r.high)}};
}
inline Value density_range(const Ranged<PixelDensity>& r) { return range(r, density); }

template <class Items, class ToValue>
Value list(const Items& items, ToValue to_value) {
  List result;
  std::transform(items.begin(), items.end(), std::back_inserter(result), to_value);
  return result;
}

inline Value text_list(const std::vector<std::string>& texts) {
  return list(texts, [](const std::string& text) { return Value{text}; });
}

inline Value assumptions_value(const std::vector<Assumption>& assumptions) {
  return list(assumptions, [](const Assumption& one) {
    return Value{Object{{"what", one.what}, {"settle", one.settle}}};
  });
}

inline Value cautions_value(const std::vector<need::Caution>& cautions) {
  return list(cautions, [](const need::Caution& one) {
    return Value{Object{{"about", one.about}, {"text", one.text}}};
  });
}

}  // namespace sightfall::file
