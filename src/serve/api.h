// SPDX-License-Identifier: GPL-3.0-or-later
// docs/wire.md as routes: what is quick runs in the order of asking on a thread of its own, what is long beside it.
//   Checked  api_test.cpp, workbench_test.cpp
#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "base/progress.h"
#include "serve/answers.h"
#include "serve/desk.h"
#include "serve/http.h"
#include "serve/jobs.h"
#include "serve/map_request.h"
#include "serve/router.h"

namespace sightfall::serve {

class Api {
 public:
  /// `program`: whose `import` verb reads maps (map_import.h).
  Api(std::string folder, std::string program);
  ~Api();
  Api(const Api&) = delete;
  Api& operator=(const Api&) = delete;

  Desk& desk() { return desk_; }
  void add_to(Router& router);

 private:
  using Quick = std::function<Reply(const Request&, const file::Value& body)>;
  using Long = std::function<Checked<file::Value>(const need::Project&, const file::Value& request, const Progress&)>;
  class Reader;

  void add_site(Router& router);
  void add_worked_out(Router& router);
  void add_imports(Router& router);
  /// An answer of the desk.
  void quick(Router& router, const std::string& method, const std::string& path, Quick answer,
             size_t largest_body = kLargestBody);
  /// An answer that takes its time, to a request in JSON with `changes`.
  void worked_out(Router& router, const std::string& kind, Long answer);
  Response worked_out(const Request& request, const Long& answer, const std::atomic<bool>& gone);
  void put_quick(const Caller& caller, std::function<Response()> work);
  void put_long(const std::string& kind, const std::string& tab, const Caller& caller,
                std::function<Response(const std::atomic<bool>& gone)> work);
  void follow(const Caller& caller);
  Response put_picture(const Request& request) const;
  Response plan_picture(const std::string& name) const;
  Response take_map(MapKind kind, const Request& request, const std::atomic<bool>& gone);

  const std::string program_;
  Desk desk_;
  std::mutex importing_;                                 ///< one at a time: each may take gigabytes
  std::map<uint64_t, std::unique_ptr<Reader>> readers_;  ///< touched by the quick thread alone
  uint64_t next_reader_ = 0;
  // Last, so that nothing runs any longer when the rest goes.
  Jobs quick_;
  Jobs long_;
};

}  // namespace sightfall::serve
