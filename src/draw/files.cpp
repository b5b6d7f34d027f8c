// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/files.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

#include "draw/canvas_impl.h"
#include "draw/pdf_text.h"
#include "draw/svg_text.h"

namespace sightfall::draw {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void draw_page(cairo_surface_t* surface, PageSize size, const Drawing& drawing) {
  const Cairo cairo{cairo_create(surface)};
  Canvas::Impl impl{cairo.get()};
  Canvas canvas{impl};
  canvas.fill(rectangle({0, 0}, {double(size.width), double(size.height)}), kPaper);
  drawing(canvas);
}

/// Metadata that is not set would be the clock's.
void tell(cairo_surface_t* surface, const PdfFacts& facts) {
  const std::string date = facts.date.empty() ? std::string{"2000-01-01"} : facts.date;
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, facts.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, facts.subject.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Sightfall");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, (date + "T00:00:00Z").c_str());
}

void bookmark(cairo_surface_t* surface, const std::vector<Bookmark>& bookmarks) {
  std::vector<int> above{CAIRO_PDF_OUTLINE_ROOT};  // by rank
  for (const Bookmark& one : bookmarks) {
    above.resize(std::min(above.size(), static_cast<size_t>(one.rank)));
    const std::string target = fmt::format("page={} pos=[0 {:.1f}]", one.page, one.at);
    above.push_back(cairo_pdf_surface_add_outline(surface, above.back(), one.title.c_str(), target.c_str(),
                                                  CAIRO_PDF_OUTLINE_FLAG_OPEN));
  }
}

Error not_drawn(cairo_status_t status) {
  return {ErrorKind::kWrite, fmt::format("the picture could not be drawn: {}", cairo_status_to_string(status)), {}};
}

}  // namespace

Result<std::string> drawn_png(PageSize size, const Drawing& drawing) {
  std::string bytes;
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_RGB24, size.width, size.height)};
  draw_page(surface.get(), size, drawing);
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  if (status != CAIRO_STATUS_SUCCESS) return tl::make_unexpected(not_drawn(status));
  return bytes;
}

Result<std::string> drawn_svg(PageSize size, const std::string& title, const std::string& description,
                              const Drawing& drawing, SvgUnit unit) {
  std::string bytes;
  const Surface surface{cairo_svg_surface_create_for_stream(append, &bytes, size.width, size.height)};
  cairo_svg_surface_set_document_unit(surface.get(), unit == SvgUnit::kPoint ? CAIRO_SVG_UNIT_PT : CAIRO_SVG_UNIT_PX);
  draw_page(surface.get(), size, drawing);
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) return tl::make_unexpected(not_drawn(status));
  return with_words(with_counted_ids(bytes), title, description);
}

Result<std::string> drawn_pdf(PageSize size, const PdfFacts& facts, const std::vector<Drawing>& pages,
                              const std::vector<Bookmark>& bookmarks) {
  std::string bytes;
  std::vector<std::string> figures;
  const Surface surface{cairo_pdf_surface_create_for_stream(append, &bytes, size.width, size.height)};
  tell(surface.get(), facts);
  {
    const Cairo cairo{cairo_create(surface.get())};
    Canvas::Impl impl{cairo.get()};
    Canvas canvas{impl};
    // ISO 32000-2, 14.8.4.2: of a tagged file's elements one holds all others.
    for (size_t i = 0; i < pages.size(); ++i) {
      if (i == 0) canvas.begin_element("Document");
      pages[i](canvas);
      if (i + 1 == pages.size()) canvas.end_element("Document");
      cairo_show_page(cairo.get());
    }
    bookmark(surface.get(), bookmarks);
    figures = std::move(impl.figures);
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) return tl::make_unexpected(not_drawn(status));
  return with_entries_for_readers(bytes, figures);
}

}  // namespace sightfall::draw
