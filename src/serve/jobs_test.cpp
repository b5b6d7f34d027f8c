// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <future>

namespace sightfall::serve {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::shared_ptr<std::atomic<bool>> flag(bool set = false) { return std::make_shared<std::atomic<bool>>(set); }

/// One thread that is kept busy until it is let go, and what was done and replaced meanwhile.
class JobsOfOneThread : public ::testing::Test {
 protected:
  JobsOfOneThread() {
    jobs_->put({"", "", nullptr, [this] {
                  begun_.set_value();
                  let_go_.get_future().wait();
                }});
    begun_.get_future().wait();
  }

  bool put(const std::string& name, const std::string& kind, const std::string& tab,
           std::shared_ptr<const std::atomic<bool>> gone = flag()) {
    return jobs_->put({kind, tab, std::move(gone), [this, name] { done_.push_back(name); },
                       [this, name] { replaced_.push_back(name); }});
  }
  void finish() {
    let_go_.set_value();
    jobs_.reset();
  }

  std::promise<void> begun_, let_go_;
  std::vector<std::string> done_, replaced_;
  std::unique_ptr<Jobs> jobs_ = std::make_unique<Jobs>(1, 5);
};

TEST_F(JobsOfOneThread, AreDoneInTheOrderOfAsking) {
  for (const char* name : {"a", "b", "c"}) put(name, "", "tab");
  finish();
  EXPECT_THAT(done_, ElementsAre("a", "b", "c"));
  EXPECT_THAT(replaced_, IsEmpty());
}

TEST_F(JobsOfOneThread, NewerOnesOfAKindAndTabTakeThePlaceOfOlderOnes) {
  put("map 1", "map", "mine");
  put("card", "card", "mine");
  put("map of another", "map", "other");
  put("map 2", "map", "mine");
  put("map 3", "map", "mine");
  EXPECT_THAT(replaced_, ElementsAre("map 1", "map 2"));
  finish();
  EXPECT_THAT(done_, ElementsAre("map 3", "card", "map of another"));
}

TEST_F(JobsOfOneThread, ThatNobodyWaitsForAreNotBegun) {
  put("gone", "map", "a", flag(true));
  put("here", "map", "b");
  finish();
  EXPECT_THAT(done_, ElementsAre("here"));
}

TEST_F(JobsOfOneThread, AreRefusedWhenTooManyWaitButForWhatMustBeDone) {
  for (int i = 0; i < 5; ++i) EXPECT_TRUE(put(std::to_string(i), "", ""));
  EXPECT_FALSE(put("one too many", "", ""));
  EXPECT_TRUE(put("must", "", "", nullptr));
  finish();
  EXPECT_THAT(done_, ElementsAre("0", "1", "2", "3", "4", "must"));
}

TEST(Jobs, OfSeveralThreadsRunBesideOneAnother) {
  std::promise<void> first, second;
  {
    Jobs jobs(2, 5);
    jobs.put({"", "", nullptr, [&] {
                first.set_value();
                second.get_future().wait();
              }});
    jobs.put({"", "", nullptr, [&] {
                first.get_future().wait();
                second.set_value();
              }});
  }
  SUCCEED() << "neither could have ended alone";
}

}  // namespace
}  // namespace sightfall::serve
