// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/measured_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "camera/stream_in_force.h"
#include "file/atomic.h"
#include "file/by_name.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

using namespace units;

constexpr double kLeast = 0.001, kMost = 1e9;  // kbit/s
constexpr const char* kWanted = "; allowed is the marks.json that `sightfall walk --clip` writes";

class MeasuredReader {
 public:
  MeasuredReader(const Value& document, const need::Project& project, Report& report)
      : document_{document}, project_{project}, report_{report} {}

  /// What is read while the report is empty.
  loads::MeasuredRate read() {
    if (!is_of_a_walk()) return {};
    const auto* camera = named("camera", project_.cameras, "camera of the site");
    const auto* condition = named("condition", project_.conditions, "condition of the site");
    if (camera == nullptr || condition == nullptr) return {};
    loads::MeasuredRate measured{camera->name, loads::by_night(project_, *condition), {}, condition->name};
    measured.rate = rate_of(clips(), *camera);
    return measured;
  }

 private:
  void wrong(const std::string& field, std::string text) {
    report_.add(ErrorKind::kField, Spot{}.at(field), std::move(text));
  }

  bool is_of_a_walk() {
    constexpr double kVersion = 1;
    const Value* version = member_of(document_, "sightfall_walk");
    const auto* number = version != nullptr ? version->as<double>() : nullptr;
    if (number != nullptr && *number == kVersion) return true;
    wrong("sightfall_walk",
          version == nullptr ? std::string("missing") + kWanted : "found " + found(*version) + "; allowed is 1");
    return false;
  }

  template <class Named>
  const Named* named(const char* field, const std::vector<Named>& all, const char* what) {
    const Value* value = member_of(document_, field);
    const auto* text = value != nullptr ? value->as<std::string>() : nullptr;
    if (text == nullptr || text->empty()) {
      wrong(field, (value == nullptr ? "missing" : "found " + found(*value)) + "; allowed is the name of a " + what);
      return nullptr;
    }
    return ByName<Named>(all, "", field, report_).find(*text, Spot{}.at(field), what, report_);
  }

  struct Clip {
    bool capped;
    DataRate mean;
  };

  std::vector<Clip> clips() {
    const Value* value = member_of(document_, "clips");
    const auto* list = value != nullptr ? value->as<List>() : nullptr;
    if (list == nullptr || list->empty()) {
      wrong("clips", (value == nullptr ? "missing" : "found " + found(*value)) + kWanted);
      return {};
    }
    std::vector<Clip> clips;
    for (size_t i = 0; i < list->size(); ++i) {
      const std::string at = fmt::format("clips[{}].", i);
      const Value *capped = member_of((*list)[i], "capped"), *mean = member_of((*list)[i], "mean_kbps");
      const auto* flag = capped != nullptr ? capped->as<bool>() : nullptr;
      const auto* rate = mean != nullptr ? mean->as<double>() : nullptr;
      if (flag == nullptr)
        wrong(at + "capped",
              (capped == nullptr ? "missing" : "found " + found(*capped)) + "; allowed is true or false");
      if (rate == nullptr || *rate < kLeast || *rate > kMost)
        wrong(at + "mean_kbps", fmt::format("{}; allowed is a number from {} to {} kbit/s",
                                            mean == nullptr ? "missing" : "found " + found(*mean), print_number(kLeast),
                                            print_number(kMost)));
      else if (flag != nullptr)
        clips.push_back({*flag, *rate * (kbit / s)});
    }
    return clips;
  }

  DataRate rate_of(const std::vector<Clip>& clips, const camera::Camera& camera) {
    if (!report_.empty()) return {};
    for (const Clip& clip : clips)
      if (clip.capped) return clip.mean;
    const auto& stream = camera::stream_of(need::the_named(project_.catalogue, camera.sheet), camera);
    if (stream && stream->rate)
      wrong("clips",
            fmt::format(
                "found none under a rate; allowed is a clip under the {:.4g} Mbit/s of the stream of {}: walk again",
                stream->rate->in(Mbit / s), in_quotes(camera.name)));
    return clips.front().mean;
  }

  const Value& document_;
  const need::Project& project_;
  Report& report_;
};

}  // namespace

Checked<loads::MeasuredRate> parse_measured(std::string_view text, const std::string& file_name,
                                            const need::Project& project) {
  const Result<Value> value = parse_json(text, file_name);
  if (!value) return tl::make_unexpected(Errors{value.error()});
  Report report(file_name);
  loads::MeasuredRate measured = MeasuredReader(*value, project, report).read();
  if (!report.empty()) return tl::make_unexpected(report.take());
  return measured;
}

Checked<std::vector<loads::MeasuredRate>> load_measured(const std::vector<std::string>& paths,
                                                        const need::Project& project) {
  std::vector<loads::MeasuredRate> all;
  std::map<std::pair<std::string, bool>, std::string> from;
  Errors errors;
  for (const std::string& path : paths) {
    const Result<std::string> text = read_whole(path, kLargestDocument);
    if (!text) {
      errors.push_back(text.error());
      continue;
    }
    Checked<loads::MeasuredRate> one = parse_measured(*text, path, project);
    if (!one) {
      errors.insert(errors.end(), one.error().begin(), one.error().end());
      continue;
    }
    const auto [other, fresh] = from.emplace(std::pair(one->camera, one->night), path);
    if (fresh)
      all.push_back(std::move(*one));
    else
      errors.push_back({ErrorKind::kRequest,
                        fmt::format("found {} by {}, which {} tells already; allowed is one file for each camera by "
                                    "day and one by night",
                                    in_quotes(one->camera), one->night ? "night" : "day", other->second),
                        {path, "", "camera"}});
  }
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  return all;
}

}  // namespace sightfall::file
