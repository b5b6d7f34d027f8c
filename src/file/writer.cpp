// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/writer.h"

#include <utility>

namespace sightfall::file {

void Writer::visit(const Field& field, const Shape& shape, const Slot& slot) {
  Value value = slot.get();
  if (value.null() || value == field.otherwise.value) return;
  const List* ends = shape.type == Shape::Type::kEnds ? value.as<List>() : nullptr;
  if (ends != nullptr && ends->front() == ends->back()) value = Value(ends->front());
  put(field.name, std::move(value));
}

bool Writer::enter(const Field& field, bool present) {
  if (!present) return false;
  open_.emplace_back(Object{});
  names_.push_back(field.name);
  return true;
}

void Writer::leave(bool drop_when_empty) {
  Value value = pop();
  const std::string_view name = names_.back();
  names_.pop_back();
  if (!drop_when_empty || !value.get<Object>().empty()) put(name, std::move(value));
}

size_t Writer::enter_list(const Field& field, size_t /*least*/, size_t /*most*/, size_t size) {
  open_.emplace_back(List{});
  names_.push_back(field.name);
  return size;
}

bool Writer::enter_item(size_t /*index*/) {
  open_.emplace_back(Object{});
  return true;
}

void Writer::leave_item() {
  Value item = pop();
  std::get<List>(open_.back().is).push_back(std::move(item));
}

void Writer::leave_list() {
  Value list = pop();
  const std::string_view name = names_.back();
  names_.pop_back();
  if (!list.get<List>().empty()) put(name, std::move(list));
}

void Writer::kinds(const Field& field, Words words, size_t current, const std::function<void(size_t)>& body) {
  put(field.name, words[current]);
  body(current);
}

void Writer::put(std::string_view name, Value value) {
  std::get<Object>(open_.back().is).push_back({std::string(name), std::move(value)});
}

Value Writer::pop() {
  Value value = std::move(open_.back());
  open_.pop_back();
  return value;
}

}  // namespace sightfall::file
