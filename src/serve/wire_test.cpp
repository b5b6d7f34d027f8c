// SPDX-License-Identifier: GPL-3.0-or-later
// What the desk answers and tells is as the examples of schema/examples/wire have it, which the page's tests read too
// and which schema/check_site_wire.py holds to the schema.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "file/golden_test.h"
#include "serve/desk.h"
#include "serve/events.h"
#include "serve/exchange.h"
#include "serve/test_desk.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::Object;
using file::Value;
using testing::at;
using testing::Ear;

fs::path example(const std::string& name) {
  return file::source_folder() / "schema" / "examples" / "wire" / (name + ".json");
}

Value request(const std::string& name) { return testing::tree(file::text_of(example(name))); }

/// The member in place of one that depends on the day, the folder or the program.
Value with(Value object, const std::string& name, Value value) {
  for (file::Member& member : std::get<Object>(object.is))
    if (member.name == name) member.value = value;
  return object;
}

class WireTest : public ::testing::Test {
 protected:
  WireTest() {
    folder_ = fs::path(::testing::TempDir()) /
              ("wire_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    fs::copy_file(example("yard.sightfall"), folder_ / "yard.sightfall.json");
    desk_ = std::make_unique<Desk>(folder_.string());
    desk_->subscribe(ear_);
    hello_ = ear_.wait("hello");
    opened_site_ = desk_->open(request("open"));
  }
  ~WireTest() override {
    desk_->unsubscribe(ear_);
    desk_.reset();
    fs::remove_all(folder_);
  }

  static void expect_example(const std::string& name, const Value& value) {
    file::expect_golden(example(name), file::print_json(value));
  }
  static void expect_reply(const std::string& name, int status, const Reply& reply) {
    EXPECT_EQ(reply.status, status) << name;
    expect_example(name, reply.body);
  }

  fs::path folder_;
  Ear ear_;
  std::unique_ptr<Desk> desk_;
  Value hello_;
  Reply opened_site_;
};

TEST_F(WireTest, OpeningIsAsItsExample) {
  EXPECT_EQ(at(hello_, {"revision"}), Value{});
  expect_reply("site", 200, opened_site_);
  expect_example("event_opened", ear_.wait("opened"));
  const Value start = desk_->start().body;
  EXPECT_EQ(at(start, {"folder"}), Value{fs::canonical(folder_).string()});
  expect_example("start", with(with(start, "folder", "/home/somebody/sites"), "version", "0.1.0"));
  Ear later;
  desk_->subscribe(later);
  const Value hello = later.wait("hello");
  expect_example("event_hello", hello);
  expect_example("message", testing::tree(message_of("hello", one_line(hello))));
  desk_->unsubscribe(later);
}

TEST_F(WireTest, AnEditIsAsItsExample) {
  expect_reply("edits", 200, desk_->edit(request("edits_request"), "a1b2c3"));
  expect_example("event_edit", ear_.wait("edit"));
  expect_reply("conflicts", 409, desk_->edit(request("edits_request"), "d4e5f6"));
  expect_reply("errors", 400, desk_->edit(request("edits_request_wrong"), "a1b2c3"));
  expect_reply("undo", 200, desk_->undo("a1b2c3"));
  Value history = desk_->history().body;
  auto& edits = std::get<file::List>(std::get<Object>(history.is).front().value.is);
  for (Value& edit : edits) edit = with(edit, "when", "2026-05-01T12:00:00Z");
  expect_example("history", history);
}

TEST_F(WireTest, TheVerdictsAreAsTheirExample) {
  const Value verdicts = ear_.wait("check");
  EXPECT_EQ(at(verdicts, {"stage"}), Value{"verdicts"});
  expect_example("event_check", verdicts);
}

TEST_F(WireTest, TroubleWithTheFileIsAsItsExample) {
  std::ofstream(folder_ / "yard.sightfall.json", std::ios::binary) << "half a docu";
  expect_example("event_trouble", ear_.wait("trouble"));
}

}  // namespace
}  // namespace sightfall::serve
