// SPDX-License-Identifier: GPL-3.0-or-later
// One row of the description of a document: a field, its bounds, and the member of our structs it stands for.
#pragma once
#include <array>
#include <concepts>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "camera/sheet.h"
#include "file/json.h"
#include "file/shape.h"
#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::file {

inline constexpr size_t kLongestText = 4000;
inline constexpr size_t kLongestList = 1'000'000;

enum class Presence { kRequired, kOptional };
inline constexpr Presence kRequired = Presence::kRequired;
inline constexpr Presence kOptional = Presence::kOptional;

/// What a field is when the document does not say: an error, unknown, or a value.
struct Default {
  Default(Presence presence) : required{presence == kRequired} {}
  template <class T>
  requires std::constructible_from<Value, T> Default(T default_value) : value{default_value} {}

  bool required = false;
  Value value;  ///< null: unknown
};

struct Field {
  std::string_view name;
  Default otherwise;
  std::string_view meaning;
};

/// A unit as the document writes it.
template <Dim D>
struct UnitOf {
  std::string_view name;
  Quantity<D> one;
};
inline constexpr UnitOf<Dim{.m = 1}> kMetres{"m", units::m};
inline constexpr UnitOf<Dim{.m = 1}> kMillimetres{"mm", units::mm};
inline constexpr UnitOf<Dim{.m = 1}> kMicrometres{"um", units::um};
inline constexpr UnitOf<Dim{.m = 1}> kNanometres{"nm", units::nm};
inline constexpr UnitOf<Dim{.rad = 1}> kDegrees{"deg", units::deg};
inline constexpr UnitOf<Dim{.s = 1}> kSeconds{"s", units::s};
inline constexpr UnitOf<Dim{.s = 1}> kMilliseconds{"ms", units::ms};
inline constexpr UnitOf<Dim{.s = -1}> kHertz{"Hz", units::Hz};
inline constexpr UnitOf<Dim{.m = 1, .s = -1}> kMetresPerSecond{"m/s", units::m / units::s};
inline constexpr UnitOf<Dim{.px = 1}> kPixels{"px", units::px};
inline constexpr UnitOf<Dim{.m = -1, .px = 1}> kPixelsPerMetre{"px/m", units::px / units::m};
inline constexpr UnitOf<Dim{.m = 1, .px = -1}> kMetresPerPixel{"m/px", units::m / units::px};
inline constexpr UnitOf<Dim{.W = 1}> kWatts{"W", units::W};
inline constexpr UnitOf<Dim{.rad = 2, .cd = 1}> kLumens{"lm", units::lm};
inline constexpr UnitOf<Dim{.rad = -2, .W = 1}> kWattsPerSteradian{"W/sr", RadiantIntensity{1}};
inline constexpr UnitOf<Dim{.s = -1, .bit = 1}> kKilobitsPerSecond{"kbit/s", units::kbit / units::s};
inline constexpr UnitOf<Dim{.kg = 1}> kKilograms{"kg", units::kg};

inline std::string_view unit_name(std::string_view unit) { return unit; }
template <Dim D>
std::string_view unit_name(const UnitOf<D>& unit) {
  return unit.name;
}

/// The row of a number, in the order of the manual's columns and in the document's unit.
template <class Unit>
struct NumberRow {
  std::string_view name;
  Unit unit;
  double lowest;
  Default otherwise;
  double highest;
  std::string_view meaning;

  Field field() const { return {name, otherwise, meaning}; }
  Shape number() const { return number_shape(lowest, highest, unit_name(unit)); }
  Shape whole() const { return whole_shape(lowest, highest, unit_name(unit)); }
  Shape ends() const { return ends_shape(lowest, highest, unit_name(unit)); }
};
/// A number that our structs hold in the document's unit.
using PlainRow = NumberRow<std::string_view>;

/// The member behind a field: its value as JSON, and a value put into it. A null value is none.
struct Slot {
  std::function<Value()> get;
  std::function<void(const Value&)> set;
};

// Our values as JSON and back. A value has been found to fit its shape before it comes here.

/// The number in the unit, with the fewest digits that give the same number back when multiplied by it.
double number_in(double si, double unit);
/// The same as a message tells it.
template <Dim D>
std::string number(Quantity<D> value, Quantity<D> unit) {
  return print_number(number_in(value.si(), unit.si()));
}

inline Value to_json(double number) { return number; }
inline Value to_json(int number) { return number; }
inline Value to_json(bool flag) { return flag; }
inline Value to_json(const std::string& text) { return text.empty() ? Value{} : Value{text}; }
inline Value to_json(geom::PlanPoint p) { return List{p.x, p.y}; }

inline void from_json(const Value& v, double& number) { number = v.get<double>(); }
inline void from_json(const Value& v, int& number) { number = static_cast<int>(v.get<double>()); }
inline void from_json(const Value& v, bool& flag) { flag = v.get<bool>(); }
inline void from_json(const Value& v, std::string& text) { text = v.get<std::string>(); }
inline void from_json(const Value& v, geom::PlanPoint& p) {
  p = {v.get<List>()[0].get<double>(), v.get<List>()[1].get<double>()};
}

template <Dim D>
Value to_json(Quantity<D> q, const UnitOf<D>& unit) {
  return number_in(q.si(), unit.one.si());
}
template <Dim D>
void from_json(const Value& v, Quantity<D>& q, const UnitOf<D>& unit) {
  q = v.get<double>() * unit.one;
}

template <class Enum>
requires std::is_enum_v<Enum> Value to_json(Enum value, Words words) { return words[static_cast<size_t>(value)]; }
template <class Enum>
requires std::is_enum_v<Enum>
void from_json(const Value& v, Enum& value, Words words) {
  for (size_t i = 0; i < words.size(); ++i)
    if (words[i] == v.get<std::string>()) value = static_cast<Enum>(i);
}

/// Equal ends are one number where the shape allows it: see Writer.
template <class T, class... Unit>
Value to_json(const camera::Ends<T>& ends, const Unit&... unit) {
  return List{to_json(ends.wide, unit...), to_json(ends.tele, unit...)};
}
template <class T, class... Unit>
void from_json(const Value& v, camera::Ends<T>& ends, const Unit&... unit) {
  const auto* both = v.as<List>();
  from_json(both != nullptr ? both->front() : v, ends.wide, unit...);
  from_json(both != nullptr ? both->back() : v, ends.tele, unit...);
}

inline Value to_json(const std::array<int, 2>& two) { return List{two[0], two[1]}; }
inline void from_json(const Value& v, std::array<int, 2>& two) {
  for (size_t i = 0; i < 2; ++i) from_json(v.get<List>()[i], two[i]);
}

/// An empty list is none.
template <class T>
Value to_json(const std::vector<T>& items) {
  if (items.empty()) return {};
  List list;
  list.reserve(items.size());
  for (const T& item : items) list.push_back(to_json(item));
  return list;
}
template <class T>
void from_json(const Value& v, std::vector<T>& items) {
  items.resize(v.get<List>().size());
  for (size_t i = 0; i < items.size(); ++i) from_json(v.get<List>()[i], items[i]);
}

/// Of a list that may be unknown, an empty one is written too.
template <class T>
Slot slot(std::optional<std::vector<T>>& value) {
  return {[&value] { return !value           ? Value{}
                            : value->empty() ? Value{List{}}
                                             : to_json(*value); },
          [&value](const Value& v) { from_json(v, value.emplace()); }};
}

/// `how` is the unit or the words that the value needs to become JSON.
template <class T, class... How>
Slot slot(T& value, How... how) {
  return {[&value, how...] { return to_json(value, how...); },
          [&value, how...](const Value& v) { from_json(v, value, how...); }};
}
template <class T, class... How>
Slot slot(std::optional<T>& value, How... how) {
  return {[&value, how...] { return value ? to_json(*value, how...) : Value{}; },
          [&value, how...](const Value& v) { from_json(v, value.emplace(), how...); }};
}

}  // namespace sightfall::file
