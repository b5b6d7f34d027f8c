// SPDX-License-Identifier: GPL-3.0-or-later
// A need judged in one condition: on as many samples as the answer takes, in the light as it is and, where it is open
// which cameras are in monochrome, at each end of where they switch.
//   Checked  check_test.cpp
#pragma once
#include <map>
#include <vector>

#include "need/lit_project.h"
#include "need/trial.h"

namespace sightfall::need {

/// A camera as something else than it is in the project.
struct Replaced {
  size_t camera = 0;
  Station station;
};

/// The trials of one need in one light, by how many samples they have. Need and stations must outlive it.
class Ladder {
 public:
  Ladder(Moment moment, const Need& need, const std::vector<Station>& stations)
      : moment_{std::move(moment)}, need_{&need}, stations_{&stations} {}

  /// Doubles the samples, which it tells, while nothing but sampling keeps the answer open; as it is, or with one
  /// camera replaced, which is in the moment's light.
  Judgement judge(int& samples, const Replaced* one = nullptr, Telling telling = Telling::kAll);
  Judgement judge_at(int samples, const Replaced* one = nullptr, Telling telling = Telling::kAll);

  /// A camera that is in no condition yet, in the moment's light.
  Replaced in_light(const Replaced& one) const;

 private:
  const Trial& at(int samples);

  Moment moment_;
  const Need* need_;
  const std::vector<Station>* stations_;
  std::map<int, Trial> trials_;
};

/// One of the project's needs in one condition. Both must outlive it.
class Ladders {
 public:
  Ladders(const LitProject& lit, const Need& need, const site::Condition& condition);

  const site::Condition& condition() const { return *condition_; }

  /// From as many samples on as the need's place asks for. As it is, which is worked out once for all who ask the lit
  /// project, or with one camera replaced, which is in no condition yet.
  Standing judge(const Replaced* one = nullptr);

 private:
  Standing judged(const Replaced* one);
  void widen_by_mode(int samples, const Replaced* one, Judgement& judgement);

  const LitProject* lit_;
  const Need* need_;
  const site::Condition* condition_;
  Ladder nominal_;
  std::vector<Ladder> ends_;
};

/// Whether one judgement of a need is worse than another of it: it is answered as in its worst condition.
bool worse(const Judgement& a, const Judgement& b);

}  // namespace sightfall::need
