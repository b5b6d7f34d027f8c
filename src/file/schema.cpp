// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/schema.h"

#include <algorithm>
#include <utility>

#include "file/describe.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

Object object_of(const Shape& shape);

Object number_object(const char* type, double lowest, double highest) {
  return {{"type", type}, {"minimum", lowest}, {"maximum", highest}};
}

Object list_object(Value item, size_t least, size_t most) {
  return {{"type", "array"}, {"items", std::move(item)}, {"minItems", least}, {"maxItems", most}};
}

Object ends_object(const Shape& shape) {
  const Object number = number_object("number", shape.lowest, shape.highest);
  return {{"oneOf", List{number, list_object(number, 2, 2)}}};
}

Object word_object(Words words) { return {{"enum", List(words.begin(), words.end())}}; }

Object object_of(const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::kNumber:
      return number_object("number", shape.lowest, shape.highest);
    case Shape::Type::kWhole:
      return number_object("integer", shape.lowest, shape.highest);
    case Shape::Type::kText:
      return {{"type", "string"}, {"minLength", shape.least}, {"maxLength", shape.most}};
    case Shape::Type::kDate:
      return {{"type", "string"}, {"pattern", "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"}};
    case Shape::Type::kTime:
      return {{"type", "string"}, {"pattern", "^([01][0-9]|2[0-3]):[0-5][0-9]$"}};
    case Shape::Type::kWord:
      return word_object(shape.words);
    case Shape::Type::kPoint:
      return list_object(number_object("number", -kFarthest, kFarthest), 2, 2);
    case Shape::Type::kList:
      return list_object(object_of(shape.item[0]), shape.least, shape.most);
    case Shape::Type::kEnds:
      return ends_object(shape);
    case Shape::Type::kFlag:
      break;
  }
  return {{"type", "boolean"}};
}

}  // namespace

void Schema::visit(const Field& field, const Shape& shape, const Slot& /*slot*/) {
  Object property = object_of(shape);
  std::string meaning(field.meaning);
  if (!shape.unit.empty()) meaning += " [" + std::string(shape.unit) + "]";
  property.push_back({"description", meaning});
  if (!field.otherwise.value.null()) property.push_back({"default", field.otherwise.value});
  put(std::string(field.name), std::move(property), field.otherwise.required);
}

bool Schema::enter(const Field& field, bool /*present*/) {
  open(field, {{"description", field.meaning}});
  return true;
}

void Schema::leave(bool /*drop_when_empty*/) {
  Node node = pop();
  const std::string name = node.name;
  const bool required = node.required;
  put(name, finished(std::move(node)), required);
}

size_t Schema::enter_list(const Field& field, size_t least, size_t most, size_t /*size*/) {
  open(field, {{"description", field.meaning}, {"type", "array"}, {"minItems", least}, {"maxItems", most}});
  return 1;
}

bool Schema::enter_item(size_t /*index*/) {
  nodes_.emplace_back();
  return true;
}

void Schema::leave_item() {
  Value item = finished(pop());
  nodes_.back().outline.push_back({"items", std::move(item)});
}

void Schema::leave_list() {
  Node node = pop();
  put(node.name, std::move(node.outline), node.required);
}

void Schema::kinds(const Field& field, Words words, size_t /*current*/, const std::function<void(size_t)>& body) {
  for (size_t i = 0; i < words.size(); ++i) {
    nodes_.emplace_back();
    put(std::string(field.name), Object{{"const", words[i]}, {"description", field.meaning}}, true);
    body(i);
    Value alternative = finished(pop());
    nodes_.back().alternatives.push_back(std::move(alternative));
  }
}

std::string Schema::text(std::string_view title) {
  Node root = pop();
  root.outline = {{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", title}};
  return print_json(finished(std::move(root)));
}

void Schema::open(const Field& field, Object outline) {
  nodes_.push_back({std::move(outline), std::string(field.name), field.otherwise.required, {}, {}, {}});
}

void Schema::put(const std::string& name, Value property, bool required) {
  nodes_.back().properties.push_back({name, std::move(property)});
  if (required) nodes_.back().needed.push_back(name);
}

Value Schema::finished(Node node) {
  Object schema = std::move(node.outline);
  if (!node.alternatives.empty()) {
    schema.push_back({"oneOf", std::move(node.alternatives)});
    return schema;
  }
  schema.push_back({"type", "object"});
  schema.push_back({"properties", std::move(node.properties)});
  if (!node.needed.empty()) schema.push_back({"required", std::move(node.needed)});
  schema.push_back({"additionalProperties", false});
  return schema;
}

Schema::Node Schema::pop() {
  Node node = std::move(nodes_.back());
  nodes_.pop_back();
  return node;
}

std::string project_schema() {
  need::Project project;
  project.settings.typical = default_typical();
  return Schema::of(std::move(project), "Sightfall project document");
}

std::string sheet_schema() { return Schema::of(camera::Sheet{}, "Sightfall sheet"); }

}  // namespace sightfall::file
