// SPDX-License-Identifier: GPL-3.0-or-later
// Entries of a PDF's catalog: what is put in moves the table of cross-references, and the file says by how much.
#include "draw/pdf_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/files.h"

namespace sightfall::draw {
namespace {

using ::testing::HasSubstr;

std::string page() {
  return drawn_pdf({200, 100}, {"A title", "", ""}, {[](Canvas& canvas) {
                     canvas.letter("words", {}, {100, 50});
                   }},
                   {})
      .value_or("");
}

TEST(PdfText, TheTableStandsWhereTheFileSays) {
  const std::string pdf = page();
  EXPECT_THAT(pdf, HasSubstr("/Marked true"));
  EXPECT_THAT(pdf, HasSubstr("/Lang (en)"));
  const size_t start = pdf.rfind("startxref\n") + 10;
  EXPECT_EQ(pdf.substr(std::stoul(pdf.substr(start)), 5), "xref\n");
}

TEST(PdfText, IsDoneOnce) { EXPECT_EQ(with_catalog_entries(page()), page()); }

TEST(PdfText, WhatIsNoPdfOfTheLibraryStaysAsItIs) {
  for (const char* text : {"", "<< /Type /Catalog", "<< /Type /Catalog >>\n9 0 obj\nxref\nstartxref\n31\n",
                           "<< /Type /Catalog >>\nxref\nstartxref\n7\n"})
    EXPECT_EQ(with_catalog_entries(text), text);
}

}  // namespace
}  // namespace sightfall::draw
