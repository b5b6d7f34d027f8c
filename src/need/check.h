// SPDX-License-Identifier: GPL-3.0-or-later
// The main job: which needs are met, which are missed, what holds each one back and what small change would mend it.
//   Model    docs/models.md sections 2, 3, 6, 7
//   Pure     reads no file, clock or global; the same answer for any number of threads
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/ranged.h"
#include "detail/limit.h"
#include "geom/vec.h"
#include "need/aim.h"
#include "need/light_shares.h"
#include "need/project.h"

namespace sightfall::need {

enum class Answer { kMet, kMarginal, kMissed };

/// `met`, `marginal` or `missed`.
std::string_view in_words(Answer answer);

/// Frames at the level that all cameras together take of one passage: a mean, and so seldom a whole number.
struct PassageFrames {
  Ranged<double> predicted;  ///< whatever lies between the samples
  int asked = 0;
};

/// The sample that falls shortest of its level; of a need that asks for frames, the one that shows most of the passage
/// that gives fewest.
struct WorstPlace {
  geom::SitePoint at_site;
  std::string condition;
  std::string camera;              ///< the best one there; empty when none sees it
  PixelDensity density;            ///< geometric, zero when unseen
  Ranged<PixelDensity> delivered;  ///< zero when unseen
  /// Of a passage whose best moment reaches the level: of the nearest moment that does not; none when all do.
  detail::Limit limit = detail::Limit::kNone;
  std::vector<LightShare> light;        ///< that it is seen by; empty when none sees it
  std::optional<PassageFrames> frames;  ///< of its passage, where frames are asked for
};

/// The smallest change found by trying that would mend the need, or the best one tried when none mends it.
struct Remedy {
  bool mends = false;
  std::string camera;
  std::string text;        ///< what to do, in words
  double share_after = 0;  ///< nominal share with the change made
  Answer answer_after = Answer::kMissed;
  std::vector<std::string> spoils;  ///< needs whose answer would get worse
  camera::Camera changed;           ///< the camera as it would be
  Length raised;                    ///< of its mount
};

struct ConditionShare {
  std::string condition;
  double share = 0;               ///< nominal
  std::string camera;             ///< the best one at its worst place; empty when none sees it
  std::vector<LightShare> light;  ///< that the worst place is seen by
  std::optional<geom::SitePoint> worst_at;
};

struct Verdict {
  std::string need;
  Answer answer = Answer::kMissed;
  Ranged<double> share;       ///< reached: of samples, or of passages; over the worst condition
  double sampling_error = 0;  ///< the share moves by less when the samples double; of passages, by no more
  double required_share = 0;
  PixelDensity required;                       ///< the level's lower edge
  detail::Limit limit = detail::Limit::kNone;  ///< at the worst place; none when met
  std::optional<WorstPlace> worst;
  std::optional<Remedy> remedy;
  std::string settle;  ///< when marginal: the one input that would settle it and how to get it
  int samples = 0;
  std::vector<ConditionShare> conditions;
};

/// Something the user should know before drilling, such as a mount within reach of a hand or a neighbour's window.
struct Caution {
  std::string about;  ///< the camera or place
  std::string text;
};

/// Which camera has which other camera in its picture.
struct Watch {
  std::string camera, sees;
};

/// The way from the boundary to a guarded place on which a person shows least.
struct LeastSeenWay {
  std::string place;
  std::string condition;
  std::vector<geom::PlanPoint> way;
  Length length, seen;  ///< its length, and the length of it on which a person is made out at the lowest level
  PixelDensity most;    ///< delivered at the best-seen point of the way
};

struct CheckResult {
  std::vector<Verdict> verdicts;  ///< in the document's order
  std::vector<Caution> cautions;
  std::vector<Assumption> assumptions;    ///< what was estimated, in the open
  std::vector<std::string> without_need;  ///< places that no need names
  std::vector<Watch> watches;
  std::vector<LeastSeenWay> least_seen;
  std::vector<Aim> aims;  ///< of every camera
  bool stopped = false;   ///< stopped before every need was judged: the verdicts so far are valid
};

class LitProject;

struct CheckOptions {
  std::vector<std::string> needs;       ///< by name; empty: all
  std::vector<std::string> conditions;  ///< by name; empty: each need's own
  bool remedies = true;
  bool surroundings = true;  ///< cautions, watches, aims and least-seen ways, too
};

/// Judges the needs of a valid project (file/project.h validates).
CheckResult check(const Project& project, const CheckOptions& options = {}, const Progress& progress = {});
/// The same where the light is shared with other work on the project (need/lit_project.h).
CheckResult check(const LitProject& lit, const CheckOptions& options = {}, const Progress& progress = {});

/// Looks for remedies of the needs that a check without them, in the conditions of these names, did not find met: with
/// them it is as check() answers at once. Stopped, some are not there.
void add_remedies(const LitProject& lit, const std::vector<std::string>& conditions, CheckResult& result,
                  const Progress& progress = {});

/// A camera set otherwise than the project has it, such as with a mask, and the needs to hold against it.
struct Otherwise {
  size_t camera = 0;  ///< of the project's
  camera::Camera set;
  std::vector<std::string> needs;
};

struct AnswerShare {
  Answer answer = Answer::kMissed;
  double share = 0;    ///< nominal
  PixelDensity worst;  ///< delivered at the worst place, nominal; zero where nothing shows it
};

/// What becomes of a need, in its worst condition.
struct Became {
  std::string need;
  AnswerShare before, after;
};

/// For each change by itself what becomes of the needs that it names and that are not missed as it is, in the project's
/// order; as check() answers with and without the change, but in a fraction of the time. Stopped, some are not there.
std::vector<std::vector<Became>> hold_otherwise(const LitProject& lit, const std::vector<Otherwise>& others,
                                                const Progress& progress = {});

}  // namespace sightfall::need
