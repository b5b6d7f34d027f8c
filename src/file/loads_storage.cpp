// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"
#include "file/loads_values.h"

namespace sightfall::file {
namespace {

using namespace units;

Value terabytes(DataSize size) { return rounded(size.in(1e12 * byte), 1000); }
Value tebibytes(DataSize size) { return rounded(size / loads::kTebibyte, 1000); }
Value gigabytes(DataSize size) { return rounded(size.in(1e9 * byte), 10); }
Value days(Time time) { return rounded(time.in(day), 100); }

Value recorder_of(const loads::RecorderStorage& one) {
  const bool wanted = !one.wanted.rule.empty(), told = one.lacks.empty();
  return Object{
      {"recorder", one.recorder},
      {"cameras", text_list(one.cameras)},
      {"held", Value{loads::in_words(one.held)}},
      {"lacks", text_or_null(one.lacks)},
      {"remedy", text_or_null(one.remedy)},
      {"raw_tb", terabytes(one.raw)},
      {"usable_tb", terabytes(one.usable)},
      {"usable_tib", tebibytes(one.usable)},
      {"may_fail", one.may_fail},
      {"a_day_gb", range(one.a_day, gigabytes)},
      {"kept_d", told ? range(one.kept, days) : Value{}},
      {"told_d", told ? range(one.told, days) : Value{}},
      {"wanted", wanted ? bearing_value(one.wanted, "tb", terabytes) : Value{}},
      {"raw_wanted_tb", wanted ? range(one.raw_wanted, terabytes) : Value{}},
      {"kept_with_twice_the_pixels_d", told ? range(one.kept_doubled, days) : Value{}},
      {"rebuild_h", one.rebuild ? range(*one.rebuild, [](Time t) { return rounded(t.in(hour), 10); }) : Value{}}};
}

Value card_of(const loads::CardStorage& card) {
  return Object{{"camera", card.camera},
                {"held", Value{loads::in_words(card.held)}},
                {"card_gb", gigabytes(card.card)},
                {"wanted_d", days(card.wanted_for)},
                {"wanted", bearing_value(card.wanted, "gb", gigabytes)},
                {"life", Value{loads::in_words(card.life)}},
                {"remedy", text_or_null(card.remedy)},
                {"kept_d", range(card.kept, days)},
                {"lives_years", range(card.lives, [](Time t) { return rounded(t.in(365.25 * day), 100); })}};
}

}  // namespace

Value loads_value(const loads::StorageLoads& storage) {
  return Object{{"held", Value{loads::in_words(storage.held)}},
                {"recorders", list(storage.recorders, recorder_of)},
                {"cards", list(storage.cards, card_of)},
                {"cautions", cautions_value(storage.cautions)}};
}

}  // namespace sightfall::file
