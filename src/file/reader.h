// SPDX-License-Identifier: GPL-3.0-or-later
// The form that fills objects from JSON and reports everything that is wrong with it: fields that are unknown, missing,
// there twice, of the wrong type or out of their range, and names that are not unique in their list.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "file/form.h"
#include "file/json.h"
#include "file/report.h"

namespace sightfall::file {

class Reader : public Form {
 public:
  /// The document must outlive the reader.
  Reader(const Value& document, Report& report);

  /// Describes the whole document into `object`.
  template <class T>
  void read(T& object) {
    if (!enter_document()) return;
    describe(*this, object);
    leave(false);
  }

  void fault(std::string_view field, const std::string& text) override;

 protected:
  void visit(const Field& field, const Shape& shape, const Slot& slot) override;
  bool enter(const Field& field, bool present) override;
  void leave(bool drop_when_empty) override;
  size_t enter_list(const Field& field, size_t least, size_t most, size_t size) override;
  bool enter_item(size_t index) override;
  void leave_item() override;
  void leave_list() override;
  void kinds(const Field& field, Words words, size_t current, const std::function<void(size_t)>& body) override;

 private:
  /// An object or a list that is being read.
  struct Level {
    std::string step = {};  ///< from the level above, such as `site` or `[3]`
    std::string name = {};  ///< of an object that carries one
    const Object* object = nullptr;
    const List* list = nullptr;
    std::vector<std::string_view> fields = {};  ///< that the description has named
    std::string_view kind = {};                 ///< when the fields depend on it
    bool any_field = false;                     ///< the kind is wrong, so that no field can be said to be unknown
  };

  bool enter_document();
  void open(std::string step, const Object& object);
  /// The value of the field of the innermost object; null when there is none.
  const Value* find(std::string_view field);
  void report_missing(const Field& field, const std::string& wanted);
  void report_unknown(const Level& level);
  void report_repeated_fields(const Level& level);
  void report_repeated_names(const List& list);
  Spot spot(std::string_view field) const;
  void add(std::string_view field, std::string text);

  const Value& document_;
  Report& report_;
  std::vector<Level> levels_;
  bool muted_ = false;  ///< while an object of no known kind is read for its name
};

}  // namespace sightfall::file
