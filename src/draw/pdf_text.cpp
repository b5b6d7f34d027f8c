// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/pdf_text.h"

#include <charconv>
#include <string_view>

namespace sightfall::draw {
namespace {

constexpr std::string_view kCatalog = "<< /Type /Catalog", kMarked = "/MarkInfo", kTable = "\nxref\n",
                           kStart = "startxref\n";
constexpr std::string_view kEntries =
    "\n   /MarkInfo << /Marked true >>\n   /Lang (en)\n   /ViewerPreferences << /DisplayDocTitle true >>";

}  // namespace

std::string with_catalog_entries(const std::string& pdf) {
  const size_t catalog = pdf.rfind(kCatalog), table = pdf.rfind(kTable), start = pdf.rfind(kStart);
  if (catalog == std::string::npos || table == std::string::npos || start == std::string::npos || catalog > table ||
      table > start)
    return pdf;
  const std::string_view last{pdf.data() + catalog, table - catalog};
  // Another object after the catalog would lie elsewhere than the table says.
  if (last.find(kMarked) != std::string_view::npos || last.find(" obj") != std::string_view::npos) return pdf;
  size_t offset = 0;
  const char* digits = pdf.data() + start + kStart.size();
  const auto [end, fault] = std::from_chars(digits, pdf.data() + pdf.size(), offset);
  if (fault != std::errc{} || offset != table + 1) return pdf;
  std::string result = pdf;
  result.replace(static_cast<size_t>(digits - pdf.data()), static_cast<size_t>(end - digits),
                 std::to_string(offset + kEntries.size()));
  result.insert(catalog + kCatalog.size(), kEntries);
  return result;
}

}  // namespace sightfall::draw
