// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/api.h"

#include <algorithm>
#include <charconv>
#include <exception>
#include <filesystem>

#include "file/atomic.h"
#include "file/project.h"
#include "serve/guard.h"
#include "serve/map_import.h"
#include "serve/plan_upload.h"
#include "serve/site_folder.h"
#include "serve/telling.h"

namespace sightfall::serve {
namespace {

using file::Value;

/// What waits at most: a page asks for one thing of a kind at a time, a thousand pages are no use we serve.
constexpr size_t kMostQuick = 256, kMostLong = 32;
constexpr size_t kLargestPicture = size_t{64} << 20;
constexpr std::string_view kPng = "\x89PNG\r\n\x1a\n";

std::string tab_of(const Request& request) {
  const std::string* tab = request.header(kTabHeader);
  return tab == nullptr ? "" : *tab;
}

Response response_of(const Reply& reply) { return json_response(reply.status, reply.body); }

/// What a library throws, such as for want of memory, ends one answer and not the server.
Response guarded(const std::function<Response()>& work) {
  try {
    return work();
  } catch (const std::exception& thrown) {
    return error_response(500, std::string("our fault: ") + thrown.what());
  }
}

/// Tells of the progress of a job that has a name.
Progress telling_of(Desk& desk, const Value* id, const std::atomic<bool>& gone) {
  if (id != nullptr) return telling([&desk](const Value& data) { desk.tell("progress", data); }, *id, gone);
  Progress silent;
  silent.stop = &gone;
  return silent;
}

}  // namespace

/// One page's stream.
class Api::Reader : public Listener {
 public:
  Reader(Desk& desk, Stream stream) : desk_{desk}, stream_{std::move(stream)} { desk_.subscribe(*this); }
  ~Reader() override { desk_.unsubscribe(*this); }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;

  void tell(std::string_view event, const std::shared_ptr<const std::string>& data) override {
    stream_.send(event, data);
  }

 private:
  Desk& desk_;
  const Stream stream_;
};

Api::Api(std::string folder, std::string program)
    : program_{std::move(program)},
      desk_{std::move(folder)},
      quick_{1, kMostQuick},
      long_{std::max<size_t>(2, std::thread::hardware_concurrency()), kMostLong} {}

Api::~Api() = default;

void Api::add_to(Router& router) {
  add_site(router);
  add_worked_out(router);
  add_imports(router);
}

void Api::add_site(Router& router) {
  const auto simple = [](Reply (Desk::*answer)() const, const Desk& desk) {
    return [answer, &desk](const Request&, const Value&) { return (desk.*answer)(); };
  };
  quick(router, "GET", "/api/start", simple(&Desk::start, desk_));
  quick(router, "GET", "/api/site", simple(&Desk::site, desk_));
  quick(router, "GET", "/api/history", simple(&Desk::history, desk_));
  quick(router, "POST", "/api/open", [this](const Request&, const Value& body) { return desk_.open(body); });
  quick(
      router, "POST", "/api/edits",
      [this](const Request& request, const Value& body) { return desk_.edit(body, tab_of(request)); }, kLargestEdit);
  quick(router, "POST", "/api/undo",
        [this](const Request& request, const Value&) { return desk_.undo(tab_of(request)); });
  quick(router, "POST", "/api/redo",
        [this](const Request& request, const Value&) { return desk_.redo(tab_of(request)); });
  router.add("GET", "/api/events", [this](const Request&, const Caller& caller) { follow(caller); });
  quick(router, "GET", "/api/stock", [](const Request&, const Value&) { return Reply{200, stock_answer()}; });
  router.add("GET", "/api/schema", [](const Request&, const Caller& caller) {
    caller.answer(
        {200, {{"Content-Type", "application/schema+json"}, {"Cache-Control", "no-store"}}, file::project_schema()});
  });
  router.add(
      "PUT", "/api/plan",
      [this](Request request, const Caller& caller) {
        put_long("", "", caller, [this, request = std::move(request)](const auto&) { return put_picture(request); });
      },
      kLargestPlan);
  router.add("GET", "/api/plan/*", [this](const Request& request, const Caller& caller) {
    put_quick(caller, [this, name = request.target.segments.back()] { return plan_picture(name); });
  });
}

void Api::add_worked_out(Router& router) {
  worked_out(router, "map", map_answer);
  worked_out(router, "picture", picture_answer);
  worked_out(router, "papers", papers_answer);
  worked_out(router, "cables",
             [](const auto& project, const auto& request, const auto&) { return cables_answer(project, request); });
  worked_out(router, "way",
             [](const auto& project, const auto& request, const auto&) { return way_answer(project, request); });
  worked_out(router, "card",
             [](const auto& project, const auto& request, const auto&) { return card_answer(project, request); });
  worked_out(router, "section",
             [](const auto& project, const auto& request, const auto&) { return section_answer(project, request); });
  worked_out(router, "scene",
             [](const auto& project, const auto& request, const auto&) { return scene_answer(project, request); });
  router.add("GET", "/api/day", [this](const Request& request, const Caller& caller) {
    put_long("", "", caller, [this, request](const std::atomic<bool>& gone) {
      const Long day = [&](const need::Project& project, const Value&, const Progress&) {
        return day_answer(project, request.target.value("date").value_or(""));
      };
      return worked_out(request, day, gone);
    });
  });
}

void Api::add_imports(Router& router) {
  const auto add = [this, &router](const char* path, MapKind kind) {
    router.add(
        "POST", path,
        [this, kind](Request request, const Caller& caller) {
          put_long("", "", caller, [this, kind, request = std::move(request)](const auto& gone) {
            return take_map(kind, request, gone);
          });
        },
        kLargestMap);
  };
  add("/api/import/footprints", MapKind::kFootprints);
  add("/api/import/terrain", MapKind::kTerrain);
}

void Api::quick(Router& router, const std::string& method, const std::string& path, Quick answer, size_t largest_body) {
  const auto handler = [this, answer = std::move(answer)](Request request, const Caller& caller) {
    put_quick(caller, [request = std::move(request), answer] {
      if (request.method != "POST") return response_of(answer(request, {}));
      const auto body = file::parse_json(request.body, "request");
      return body ? response_of(answer(request, *body)) : errors_response(400, {body.error()});
    });
  };
  router.add(method, path, handler, largest_body);
}

void Api::worked_out(Router& router, const std::string& kind, Long answer) {
  router.add("POST", "/api/" + kind,
             [this, kind, answer = std::move(answer)](const Request& request, const Caller& caller) {
               put_long(kind, tab_of(request), caller,
                        [this, request, answer](const auto& gone) { return worked_out(request, answer, gone); });
             });
}

Response Api::worked_out(const Request& request, const Long& answer, const std::atomic<bool>& gone) {
  Value body = file::Object{};
  if (request.method == "POST") {
    auto parsed = file::parse_json(request.body, "request");
    if (!parsed) return errors_response(400, {parsed.error()});
    body = std::move(*parsed);
  }
  const auto what = asked(body);
  if (!what) return errors_response(400, what.error());
  const Snapshot now = desk_.snapshot();
  if (now.project == nullptr) return error_response(409, "no site is open");
  const auto changed = now.with(what->changes);
  if (!changed) return errors_response(400, changed.error());
  auto found = answer(*changed->project, what->request, telling_of(desk_, file::member_of(what->request, "id"), gone));
  if (!found) return errors_response(400, found.error());
  file::Object members = found->get<file::Object>();
  members.push_back({"revision", now.revision});
  return json_response(200, Value{std::move(members)});
}

void Api::put_quick(const Caller& caller, std::function<Response()> work) {
  const bool taken =
      quick_.put({"", "", caller.gone(), [caller, work = std::move(work)] { caller.answer(guarded(work)); }});
  if (!taken) caller.answer(error_response(503, "too much is asked at once; try again"));
}

void Api::put_long(const std::string& kind, const std::string& tab, const Caller& caller,
                   std::function<Response(const std::atomic<bool>& gone)> work) {
  const auto gone = caller.gone();
  const bool taken = long_.put(
      {kind, tab, gone, [caller, gone, work = std::move(work)] { caller.answer(guarded([&] { return work(*gone); })); },
       [caller] { caller.answer(error_response(503, "something newer of the kind was asked for by the same page")); }});
  if (!taken) caller.answer(error_response(503, "too much is asked at once; try again"));
}

void Api::follow(const Caller& caller) {
  const uint64_t number = next_reader_++;
  const Stream stream = caller.stream([this, number] {
    quick_.put({"", "", nullptr, [this, number] { readers_.erase(number); }});
  });
  quick_.put({"", "", nullptr, [this, number, stream] { readers_[number] = std::make_unique<Reader>(desk_, stream); }});
}

Response Api::put_picture(const Request& request) const {
  const std::string text = request.target.value("page").value_or("1");
  int page = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), page);
  if (fault != std::errc{} || end != text.data() + text.size() || page < 1)
    return errors_response(400,
                           {{ErrorKind::kField, "found \"" + text + "\"; allowed: 1 and up", {"request", "", "page"}}});
  if (desk_.document_path().empty()) return error_response(409, "no site is open");
  return response_of(put_plan(desk_.document_path(), request.body, page));
}

/// Only what is a picture, and beside the document: the name is a bare one (target.h).
Response Api::plan_picture(const std::string& name) const {
  const std::string path = (std::filesystem::path(desk_.folder()) / name).string();
  Response none = error_response(404, "there is no picture of that name");
  if (!stands_in(desk_.folder(), path)) return none;
  const auto bytes = file::read_whole(path, kLargestPicture);
  if (!bytes || !bytes->starts_with(kPng)) return none;
  return {200, {{"Content-Type", "image/png"}, {"Cache-Control", "no-store"}}, *bytes};
}

Response Api::take_map(MapKind kind, const Request& request, const std::atomic<bool>& gone) {
  const auto asked = read_map_request(kind, request.target);
  if (!asked) return errors_response(400, asked.error());
  const Snapshot now = desk_.snapshot();
  if (now.project == nullptr) return error_response(409, "no site is open");
  const std::unique_lock alone(importing_, std::try_to_lock);
  if (!alone) return error_response(503, "another map is being read; try again when it is done");
  const Value id = asked->id ? Value{*asked->id} : Value{};
  const auto map = import_map(program_, now, *asked, request.body, telling_of(desk_, id.null() ? nullptr : &id, gone));
  if (!map) return errors_response(400, map.error());
  if (gone) return error_response(503, "nobody waits for it any longer; nothing was imported");
  Reply reply = desk_.make(now.file, asked->words, map->changes, tab_of(request));
  auto& members = std::get<file::Object>(reply.body.is);
  // Whoever settles conflicts needs what else there is to do.
  const bool conflicts = file::member_of(reply.body, "conflicts") != nullptr;
  if (conflicts) members.push_back({"changes", file::to_value(map->changes)});
  if (conflicts || reply.status == 200) members.push_back({"told", file::List(map->told.begin(), map->told.end())});
  return response_of(reply);
}

}  // namespace sightfall::serve
