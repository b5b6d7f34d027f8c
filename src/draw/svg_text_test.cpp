// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/svg_text.h"

#include <gtest/gtest.h>

namespace sightfall::draw {
namespace {

TEST(SvgText, IdsAreCountedFromOneInOrderAndReferencesFollow) {
  EXPECT_EQ(with_counted_ids(R"(<image id="image71"/><g id="surface9"/><use href="#image71"/><use href="#image8"/>)"),
            R"(<image id="image1"/><g id="surface1"/><use href="#image1"/><use href="#image2"/>)");
  EXPECT_EQ(with_counted_ids("image, image/png and surface"), "image, image/png and surface");
}

TEST(SvgText, WordsAreEscapedAndStandFirst) {
  EXPECT_EQ(with_words("<?xml?>\n<svg a=\"b\"><g/></svg>", "a < b & c", std::string("one\ntwo\x01>")),
            "<?xml?>\n<svg a=\"b\">\n<title>a &lt; b &amp; c</title>\n<desc>one\ntwo&gt;</desc><g/></svg>");
}

}  // namespace
}  // namespace sightfall::draw
