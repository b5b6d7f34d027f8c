// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/spreadsheet.h"

#include <xlsxwriter.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "papers/date.h"

namespace sightfall::papers {
namespace {

/// A folder of our own that is gone with all that is in it: the library writes to a file alone.
class Room {
 public:
  Room() {
    std::string name = (std::filesystem::temp_directory_path() / "sightfall-XXXXXX").string();
    if (::mkdtemp(name.data()) != nullptr) folder_ = name;
  }
  ~Room() {
    std::error_code none;
    if (!folder_.empty()) std::filesystem::remove_all(folder_, none);
  }
  Room(const Room&) = delete;
  Room& operator=(const Room&) = delete;
  bool there() const { return !folder_.empty(); }
  std::string file() const { return folder_ + "/schedules.xlsx"; }
  const std::string& folder() const { return folder_; }

 private:
  std::string folder_;
};

/// The day's beginning in universal time; without a day, one that says that none was given.
time_t moment(const std::string& date) {
  using namespace std::chrono;
  return system_clock::to_time_t(sys_days{date_of(date).value_or(year{2000} / 1 / 1)});
}

/// Of UTF-8.
size_t letters_of(const std::string& text) {
  return static_cast<size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

double width_of(const Schedule& schedule, size_t column) {
  size_t most = letters_of(schedule.columns[column]);
  for (const auto& row : schedule.rows)
    if (const auto* text = std::get_if<std::string>(&row[column])) most = std::max(most, letters_of(*text));
  constexpr size_t kLeast = 8, kMost = 60;
  return static_cast<double>(std::clamp(most + 2, kLeast, kMost));
}

/// Lines that a row's texts take when they are wrapped: not every program that opens the file works it out itself.
int lines_of(const Schedule& schedule, const std::vector<Cell>& row) {
  constexpr double kWider = 1.1;  // words do not fill their lines
  double most = 1;
  for (size_t i = 0; i < row.size(); ++i)
    if (const auto* text = std::get_if<std::string>(&row[i])) {
      const double lines = static_cast<double>(letters_of(*text)) / width_of(schedule, i);
      if (lines > 1) most = std::max(most, std::ceil(kWider * lines));
    }
  return static_cast<int>(most);
}

struct Formats {
  lxw_format *bold, *wrapped, *top;
};

void write_sheet(lxw_workbook* book, const Schedule& schedule, draw::PaperSize paper, const Formats& formats) {
  const auto [bold, wrapped, top] = formats;
  lxw_worksheet* sheet = workbook_add_worksheet(book, schedule.name.c_str());
  constexpr uint8_t kLetter = 1, kA4 = 9;  // as the file format counts papers
  worksheet_set_paper(sheet, paper == draw::PaperSize::kA4 ? kA4 : kLetter);
  for (size_t i = 0; i < schedule.columns.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    worksheet_set_column(sheet, column, column, width_of(schedule, i), nullptr);
    worksheet_write_string(sheet, 0, column, schedule.columns[i].c_str(), bold);
  }
  for (size_t r = 0; r < schedule.rows.size(); ++r) {
    if (const int lines = lines_of(schedule, schedule.rows[r]); lines > 1)
      worksheet_set_row(sheet, static_cast<lxw_row_t>(r + 1), lines * LXW_DEF_ROW_HEIGHT, nullptr);
    for (size_t i = 0; i < schedule.rows[r].size(); ++i) {
      const auto row = static_cast<lxw_row_t>(r + 1);
      const auto column = static_cast<lxw_col_t>(i);
      const Cell& cell = schedule.rows[r][i];
      if (const auto* text = std::get_if<std::string>(&cell))
        worksheet_write_string(sheet, row, column, text->c_str(), wrapped);
      else if (const auto* number = std::get_if<double>(&cell))
        worksheet_write_number(sheet, row, column, *number, top);
    }
  }
  worksheet_freeze_panes(sheet, 1, 0);
  worksheet_set_landscape(sheet);
  worksheet_fit_to_pages(sheet, 1, 0);
  worksheet_repeat_rows(sheet, 0, 0);
}

}  // namespace

Result<std::string> spreadsheet_of(const std::vector<Schedule>& schedules, const std::string& title,
                                   const std::string& date, draw::PaperSize paper) {
  const Room room;
  if (!room.there()) return failure(ErrorKind::kWrite, "no folder for temporary files can be made");
  // The library takes what it only reads as though it wrote there.
  std::string folder = room.folder(), titled = title, author = "Sightfall";
  lxw_workbook_options options{};
  options.tmpdir = folder.data();
  lxw_workbook* book = workbook_new_opt(room.file().c_str(), &options);
  lxw_doc_properties properties{};
  properties.title = titled.data();
  properties.author = author.data();
  properties.created = moment(date);
  workbook_set_properties(book, &properties);
  lxw_format* bold = workbook_add_format(book);
  format_set_bold(bold);
  lxw_format* wrapped = workbook_add_format(book);
  format_set_text_wrap(wrapped);
  format_set_align(wrapped, LXW_ALIGN_VERTICAL_TOP);
  lxw_format* top = workbook_add_format(book);
  format_set_align(top, LXW_ALIGN_VERTICAL_TOP);
  for (const Schedule& schedule : schedules) write_sheet(book, schedule, paper, {bold, wrapped, top});
  if (const lxw_error error = workbook_close(book); error != LXW_NO_ERROR)
    return failure(ErrorKind::kWrite, std::string("the spreadsheet could not be written: ") + lxw_strerror(error));
  std::ifstream file{room.file(), std::ios::binary};
  return std::string{std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace sightfall::papers
