// SPDX-License-Identifier: GPL-3.0-or-later
// Which function answers which request, and answers in JSON.
//   Checked  router_test.cpp
#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.h"
#include "file/json.h"
#include "serve/http.h"

namespace sightfall::serve {

/// Bytes of a request's body in JSON.
inline constexpr size_t kLargestBody = size_t{1} << 20;

using Handler = std::function<void(Request request, const Caller& caller)>;

struct Route {
  std::string method;
  std::vector<std::string> segments;  ///< `*` stands for any one
  Handler handler;
  size_t largest_body = kLargestBody;
};

class Router {
 public:
  /// `path` such as `/api/plan/*`.
  void add(std::string method, std::string_view path, Handler handler, size_t largest_body = kLargestBody);

  /// Who answers, or that nobody does: 404, or 405 with the methods that are. HEAD is answered like GET.
  std::variant<const Route*, Response> find(const Request& head) const;

 private:
  std::vector<Route> routes_;
};

Response json_response(int status, const file::Value& body);
/// The status that fits, and `{"errors": [...]}`.
Response errors_response(int status, const Errors& errors);
Response error_response(int status, const std::string& text);

}  // namespace sightfall::serve
