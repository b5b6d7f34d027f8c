// SPDX-License-Identifier: GPL-3.0-or-later
// The form that makes the JSON Schema (draft 2020-12) of an object. What a schema cannot say, such as that a name must
// be one that something carries, is said in rules.h.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "file/form.h"
#include "file/json.h"

namespace sightfall::file {

class Schema : public Form {
 public:
  template <class T>
  static std::string of(T object, std::string_view title) {
    Schema schema;
    describe(schema, object);
    return schema.text(title);
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
  /// An object or a list whose schema is being made.
  struct Node {
    Object outline;  ///< what stands before its fields, such as `description`
    std::string name;
    bool required = false;
    Object properties;
    List needed;        ///< names of required properties
    List alternatives;  ///< one schema for each kind
  };

  Schema() : nodes_(1) {}
  std::string text(std::string_view title);
  void open(const Field& field, Object outline);
  void put(const std::string& name, Value property, bool required);
  static Value finished(Node node);
  Node pop();

  std::vector<Node> nodes_;
};

}  // namespace sightfall::file
