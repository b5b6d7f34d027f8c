// SPDX-License-Identifier: GPL-3.0-or-later
// The one description of the documents is written as calls on a Form: each call is a field with its name, unit, lowest
// value, default, highest value and meaning, and the member it stands for. describe(form, object) in describe_*.cpp
// makes the calls; what comes of them depends on the form:
//   Reader   fills the object from JSON and reports what is wrong         (reader.h)
//   Writer   makes JSON of the object                                     (writer.h)
//   Schema   makes the JSON Schema                                        (schema.h)
//   Manual   makes the tables of docs/document.md                         (manual.h)
#pragma once
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "camera/sheet.h"
#include "file/field.h"
#include "file/shape.h"
#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::file {

class Form {
 public:
  virtual ~Form() = default;

  template <Dim D>
  void number(const NumberRow<UnitOf<D>>& row, Quantity<D>& value) {
    visit(row.field(), row.number(), slot(value, row.unit));
  }
  template <Dim D>
  void number(const NumberRow<UnitOf<D>>& row, std::optional<Quantity<D>>& value) {
    visit(row.field(), row.number(), slot(value, row.unit));
  }
  void number(const PlainRow& row, double& value) { visit(row.field(), row.number(), slot(value)); }
  void number(const PlainRow& row, std::optional<double>& value) { visit(row.field(), row.number(), slot(value)); }
  void whole(const PlainRow& row, int& value) { visit(row.field(), row.whole(), slot(value)); }
  void whole(const PlainRow& row, std::optional<int>& value) { visit(row.field(), row.whole(), slot(value)); }
  void numbers(const PlainRow& row, size_t least, size_t most, std::vector<double>& values) {
    visit(row.field(), list_shape(row.number(), least, most), slot(values));
  }

  /// Two numbers in a list.
  template <Dim D>
  void pair(const NumberRow<UnitOf<D>>& row, std::optional<camera::Ends<Quantity<D>>>& value) {
    visit(row.field(), list_shape(row.number(), 2, 2), slot(value, row.unit));
  }
  void pair(const PlainRow& row, std::optional<camera::Ends<double>>& value) {
    visit(row.field(), list_shape(row.number(), 2, 2), slot(value));
  }
  void whole_pair(const PlainRow& row, std::array<int, 2>& value) {
    visit(row.field(), list_shape(row.whole(), 2, 2), slot(value));
  }

  /// One number, or two in a list for the wide and the tele end.
  template <Dim D>
  void ends(const NumberRow<UnitOf<D>>& row, camera::Ends<Quantity<D>>& value) {
    visit(row.field(), row.ends(), slot(value, row.unit));
  }
  template <Dim D>
  void ends(const NumberRow<UnitOf<D>>& row, std::optional<camera::Ends<Quantity<D>>>& value) {
    visit(row.field(), row.ends(), slot(value, row.unit));
  }
  void ends(const PlainRow& row, std::optional<camera::Ends<double>>& value) {
    visit(row.field(), row.ends(), slot(value));
  }

  /// What the object is called: unique within its list.
  void name(std::string& value) {
    visit({"name", kRequired, "what it is called; unique within its list"}, text_shape(1, kLongestName), slot(value));
  }
  /// Text on one line: the name of something else, or a few words.
  void text(const Field& field, std::string& value) { visit(field, text_shape(1, kLongestName), slot(value)); }
  void text(const Field& field, std::optional<std::string>& value) {
    visit(field, text_shape(1, kLongestName), slot(value));
  }
  void lines(const Field& field, std::string& value) {
    visit(field, lines_shape(field.otherwise.required ? 1 : 0, kLongestText), slot(value));
  }
  void names(const Field& field, std::vector<std::string>& values) {
    visit(field, list_shape(text_shape(1, kLongestName), 0, kLongestList), slot(values));
  }
  void names(const Field& field, std::optional<std::vector<std::string>>& values) {
    visit(field, list_shape(text_shape(1, kLongestName), 0, kLongestList), slot(values));
  }

  /// Texts of a fixed form: "YYYY-MM-DD" and "HH:MM".
  void date(const Field& field, int first_year, int last_year, std::string& value) {
    visit(field, date_shape(first_year, last_year), slot(value));
  }
  void time(const Field& field, std::string& value) { visit(field, time_shape(), slot(value)); }

  void flag(const Field& field, bool& value) { visit(field, flag_shape(), slot(value)); }
  void flag(const Field& field, std::optional<bool>& value) { visit(field, flag_shape(), slot(value)); }
  template <class Enum>
  void choice(const Field& field, Words words, Enum& value) {
    visit(field, word_shape(words), slot(value, words));
  }
  template <class Enum>
  void choice(const Field& field, Words words, std::optional<Enum>& value) {
    visit(field, word_shape(words), slot(value, words));
  }

  void point(const Field& field, geom::PlanPoint& value) { visit(field, point_shape(), slot(value)); }
  void points(const Field& field, size_t least, std::vector<geom::PlanPoint>& values) {
    visit(field, list_shape(point_shape(), least, kLongestList), slot(values));
  }
  void rings(const Field& field, std::vector<std::vector<geom::PlanPoint>>& values) {
    visit(field, list_shape(list_shape(point_shape(), 3, kLongestList), 0, kLongestList), slot(values));
  }

  /// An object within the object. One that is not there keeps the value it has.
  template <class T>
  void object(const Field& field, T& value, bool present = true) {
    if (!enter(field, present)) return;
    describe(*this, value);
    leave(!field.otherwise.required);
  }
  template <class T>
  void object(const Field& field, std::optional<T>& value) {
    if (!enter(field, value.has_value())) return;
    if (!value) value.emplace();
    describe(*this, *value);
    leave(false);
  }
  /// A list of objects.
  template <class T>
  void list(const Field& field, size_t least, size_t most, std::vector<T>& items) {
    items.resize(enter_list(field, least, most, items.size()));
    for (size_t i = 0; i < items.size(); ++i) {
      if (!enter_item(i)) continue;
      describe(*this, items[i]);
      leave_item();
    }
    leave_list();
  }
  /// An object whose fields depend on its kind: `body` describes them for the kind that `kind` then holds.
  template <class Enum, class Body>
  void by_kind(const Field& field, Words words, Enum& kind, const Body& body) {
    kinds(field, words, static_cast<size_t>(kind), [&](size_t index) {
      kind = static_cast<Enum>(index);
      body();
    });
  }

  /// A mistake that the fields of one object make together. Only a reader listens, and not when it has told a mistake
  /// in that field already.
  virtual void fault(std::string_view /*field*/, const std::string& /*text*/) {}

 protected:
  virtual void visit(const Field& field, const Shape& shape, const Slot& slot) = 0;
  /// Whether there is an object to describe.
  virtual bool enter(const Field& field, bool present) = 0;
  virtual void leave(bool drop_when_empty) = 0;
  /// How many items there are to describe.
  virtual size_t enter_list(const Field& field, size_t least, size_t most, size_t size) = 0;
  virtual bool enter_item(size_t index) = 0;
  virtual void leave_item() = 0;
  virtual void leave_list() = 0;
  virtual void kinds(const Field& field, Words words, size_t current, const std::function<void(size_t)>& body) = 0;
};

}  // namespace sightfall::file
