// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/router.h"

#include <algorithm>

#include "serve/desk.h"

namespace sightfall::serve {
namespace {

bool fits(const Route& route, const std::vector<std::string>& segments) {
  return std::equal(
      route.segments.begin(), route.segments.end(), segments.begin(), segments.end(),
      [](const std::string& pattern, const std::string& found) { return pattern == "*" || pattern == found; });
}

}  // namespace

void Router::add(std::string method, std::string_view path, Handler handler, size_t largest_body) {
  Route route{std::move(method), {}, std::move(handler), largest_body};
  while (!path.empty()) {
    path.remove_prefix(1);
    const size_t end = std::min(path.find('/'), path.size());
    route.segments.emplace_back(path.substr(0, end));
    path.remove_prefix(end);
  }
  routes_.push_back(std::move(route));
}

std::variant<const Route*, Response> Router::find(const Request& head) const {
  const std::string method = head.method == "HEAD" ? "GET" : head.method;
  std::string allowed;
  for (const Route& route : routes_) {
    if (!fits(route, head.target.segments)) continue;
    if (route.method == method) return &route;
    allowed += (allowed.empty() ? "" : ", ") + route.method;
  }
  if (allowed.empty()) return error_response(404, "nothing is called " + head.target.path());
  Response response = error_response(405, "found " + head.method + "; allowed: " + allowed);
  response.headers.push_back({"Allow", allowed});
  return response;
}

Response json_response(int status, const file::Value& body) {
  return {status,
          {{"Content-Type", "application/json; charset=utf-8"}, {"Cache-Control", "no-store"}},
          file::print_json(body)};
}

Response errors_response(int status, const Errors& errors) { return json_response(status, errors_body(errors)); }

Response error_response(int status, const std::string& text) {
  return errors_response(status, {{ErrorKind::kRequest, text, {"request", "", ""}}});
}

}  // namespace sightfall::serve
