// SPDX-License-Identifier: GPL-3.0-or-later
// Entries put into a PDF: what is put in moves the objects, and the table and the file say by how much.
#include "draw/pdf_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/files.h"

namespace sightfall::draw {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string page() {
  return drawn_pdf({200, 100}, {"A title", "", ""}, {[](Canvas& canvas) {
                     canvas.letter("words", {}, {100, 50});
                     canvas.figure("a square", [&] { canvas.fill(rectangle({10, 10}, {20, 20}), kInk); });
                     canvas.figure("a \xD0\xB4\xD0\xBE\xD0\xBC \xF0\x9F\x8F\xA0", [&] {
                       canvas.fill(rectangle({30, 10}, {40, 20}), kInk);
                     });
                   }},
                   {})
      .value_or("");
}

TEST(PdfText, TheTableStandsWhereTheFileSays) {
  const std::string pdf = page();
  EXPECT_THAT(pdf, HasSubstr("/Marked true"));
  EXPECT_THAT(pdf, HasSubstr("/Lang (en)"));
  EXPECT_EQ(pdf.find("/MarkInfo"), pdf.rfind("/MarkInfo"));  // the library may write it, too
  const size_t start = pdf.rfind("startxref\n") + 10;
  EXPECT_EQ(pdf.substr(std::stoul(pdf.substr(start)), 5), "xref\n");
}

TEST(PdfText, EveryObjectLiesWhereTheTableSays) {
  const std::string pdf = page();
  const size_t table = std::stoul(pdf.substr(pdf.rfind("startxref\n") + 10));
  const int count = std::stoi(pdf.substr(table + 7));
  const size_t entries = pdf.find('\n', table + 5) + 1;
  ASSERT_GT(count, 5);
  for (int i = 1; i < count; ++i) {
    const std::string entry = pdf.substr(entries + 20 * static_cast<size_t>(i), 20);
    const std::string begin = std::to_string(i) + " 0 obj\n";
    EXPECT_EQ(pdf.substr(std::stoul(entry), begin.size()), begin) << entry;
  }
}

TEST(PdfText, FiguresTellWhatTheyShowInTheirOrder) {
  const std::string pdf = page();
  const size_t square = pdf.find("/S /Figure\n   /Alt " + pdf_string("a square"));
  ASSERT_NE(square, std::string::npos);
  EXPECT_GT(pdf.find("/S /Figure\n   /Alt <FEFF00610020", square + 10), square);
}

TEST(PdfText, LettersOfEveryScriptAreTold) {
  // Unicode 15, table 3-5: U+1F3E0 is D83C DFE0 in UTF-16.
  EXPECT_EQ(pdf_string("a \xD0\xB4 \xF0\x9F\x8F\xA0"),
            "<FEFF00610020043400"
            "20D83CDFE0>");
  EXPECT_EQ(pdf_string("(\\)"), "<FEFF0028005C0029>");
}

TEST(PdfText, FiguresThatCannotBeToldApartTellNothing) {
  const std::string pdf = with_entries_for_readers(
      "%PDF\n1 0 obj\n<< /Type /StructElem\n   /S /Figure\n>>\nendobj\n"
      "2 0 obj\n<< /Type /Catalog\n>>\nendobj\nxref\n0 3\n"
      "0000000000 65535 f \n0000000005 00000 n \n0000000058 00000 n \n"
      "trailer\nstartxref\n94\n%%EOF\n",
      {"one", "two"});
  EXPECT_THAT(pdf, HasSubstr("/Marked true"));
  EXPECT_THAT(pdf, Not(HasSubstr("/Alt")));
}

TEST(PdfText, IsDoneOnce) { EXPECT_EQ(with_entries_for_readers(page(), {"a", "b"}), page()); }

TEST(PdfText, WhatIsNoPdfOfTheLibraryStaysAsItIs) {
  for (const char* text :
       {"", "<< /Type /Catalog", "<< /Type /Catalog >>\n9 0 obj\nxref\n0 1\nstartxref\n31\n",
        "<< /Type /Catalog >>\nxref\n0 1\nstartxref\n7\n", "<< /Type /Catalog >>\nxref\n0 9999999\nstartxref\n22\n"})
    EXPECT_EQ(with_entries_for_readers(text, {}), text);
}

}  // namespace
}  // namespace sightfall::draw
