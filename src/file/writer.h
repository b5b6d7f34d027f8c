// SPDX-License-Identifier: GPL-3.0-or-later
// The form that makes JSON of an object. Fields that hold their default are left out.
#pragma once
#include <string_view>
#include <vector>

#include "file/form.h"
#include "file/json.h"

namespace sightfall::file {

class Writer : public Form {
 public:
  template <class T>
  static Value written(T object) {
    Writer writer;
    describe(writer, object);
    return std::move(writer.open_.back());
  }

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
  Writer() : open_{Object{}} {}
  void put(std::string_view name, Value value);
  Value pop();

  std::vector<Value> open_;              ///< objects and lists not finished, the document first
  std::vector<std::string_view> names_;  ///< of the open ones in what holds them
};

}  // namespace sightfall::file
