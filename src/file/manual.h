// SPDX-License-Identifier: GPL-3.0-or-later
// The form that makes tables in Markdown of every field: one table for the document, one for each list of objects, and
// one for each kind of object.
#pragma once
#include <string>
#include <vector>

#include "file/form.h"

namespace sightfall::file {

class Manual : public Form {
 public:
  template <class T>
  static std::string of(T object, const std::string& title) {
    Manual manual(title);
    describe(manual, object);
    return manual.text();
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
  struct Section {
    std::string title;
    std::string rows;
  };
  /// Where the description is: the section that rows go to, and the path of the object in it.
  struct Place {
    size_t section;
    std::string path;    ///< from the document
    std::string prefix;  ///< from the section's object
  };

  explicit Manual(const std::string& title) : sections_{{title, {}}}, places_{{0, {}, {}}} {}
  std::string text() const;
  void add_row(std::string_view name, const std::string& what, const Shape& bounds, const Field& field);
  void open_section(const std::string& title, const std::string& path);

  std::vector<Section> sections_;
  std::vector<Place> places_;
};

}  // namespace sightfall::file
