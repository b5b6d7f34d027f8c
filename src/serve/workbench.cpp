// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/workbench.h"

#include <algorithm>
#include <filesystem>

#include "serve/map_import.h"

namespace sightfall::serve {
namespace {

/// What is asked of a body that no route reads.
constexpr size_t kNoBody = 0;

bool is_loopback(const std::string& address) { return address == "127.0.0.1" || address == "::1"; }

/// What is asked for, and loopback; an address that stands for all of a kind holds that kind's loopback.
std::vector<std::string> addresses_of(const std::string& listen) {
  std::vector<std::string> all;
  if (!listen.empty() && !is_loopback(listen)) all.push_back(listen);
  if (listen != "0.0.0.0") all.emplace_back("127.0.0.1");
  if (listen != "::") all.emplace_back("::1");
  return all;
}

std::vector<std::string> names_of(const WorkbenchOptions& options) {
  std::vector<std::string> names = options.hosts;
  if (!options.listen.empty() && options.listen != "0.0.0.0" && options.listen != "::") names.push_back(options.listen);
  return names;
}

}  // namespace

Workbench::Workbench(const WorkbenchOptions& options)
    : names_{names_of(options)},
      guard_{{!options.listen.empty(), names_, options.show_code}},
      api_{std::filesystem::current_path().string(), options.program.empty() ? own_program() : options.program} {
  api_.add_to(router_);
  router_.add("POST", "/api/pair", [this](const Request& request, const Caller& caller) { pair(request, caller); });
}

Checked<std::unique_ptr<Workbench>> Workbench::open(const WorkbenchOptions& options) {
  std::unique_ptr<Workbench> made(new Workbench(options));
  if (!options.site.empty())
    if (const auto opened = made->api_.desk().open_path(options.site); !opened)
      return tl::make_unexpected(opened.error());
  auto server = Server::open(addresses_of(options.listen), options.port, made->service(), options.limits);
  if (!server) {
    Error error = server.error();
    error.where = {"command line", "", options.listen.empty() ? "--port" : "--listen"};
    return tl::make_unexpected(Errors{std::move(error)});
  }
  made->server_ = std::move(*server);
  made->guard_.set_port(made->port());
  return made;
}

std::vector<std::string> Workbench::addresses() const {
  const auto address = [this](const std::string& host) {
    const bool six = host.find(':') != std::string::npos;
    return "http://" + (six ? "[" + host + "]" : host) + ":" + std::to_string(port()) + "/";
  };
  std::vector<std::string> all{address("localhost")};
  std::transform(names_.begin(), names_.end(), std::back_inserter(all), address);
  return all;
}

Service Workbench::service() {
  return {[this](const Request& head) { return admit(guard_, router_, head); },
          [this](Request request, const Caller& caller) { handle(std::move(request), caller); }, error_response,
          security_headers()};
}

Admission admit(const Guard& guard, const Router& router, const Request& head) {
  if (const auto refusal = guard.refusal(head)) return {error_response(refusal->status, refusal->text)};
  if (!is_api(head) && (head.method == "GET" || head.method == "HEAD")) return {std::nullopt, kNoBody};
  auto found = router.find(head);
  if (auto* refused = std::get_if<Response>(&found)) return {std::move(*refused)};
  return {std::nullopt, std::get<const Route*>(found)->largest_body};
}

void Workbench::handle(Request request, const Caller& caller) {
  if (!is_api(request)) {
    auto page = pages_.find(request);
    return caller.answer(page ? std::move(*page) : error_response(404, "nothing is called " + request.target.path()));
  }
  const auto found = router_.find(request);
  if (const auto* route = std::get_if<const Route*>(&found)) (*route)->handler(std::move(request), caller);
}

void Workbench::pair(const Request& request, const Caller& caller) {
  const auto body = file::parse_json(request.body, "request");
  if (!body) return caller.answer(errors_response(400, {body.error()}));
  const auto* members = body->as<file::Object>();
  const bool one = members != nullptr && members->size() == 1 && members->front().name == "code";
  const auto* code = one ? members->front().value.as<std::string>() : nullptr;
  if (code == nullptr) return caller.answer(error_response(400, "needed is {\"code\": TEXT}"));
  const auto cookie = guard_.pair(*code);
  if (!cookie) return caller.answer(error_response(cookie.error().status, cookie.error().text));
  Response response = json_response(200, file::Object{});
  response.headers.push_back(*cookie);
  caller.answer(std::move(response));
}

}  // namespace sightfall::serve
