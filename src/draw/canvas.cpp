// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/canvas.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>

#include "draw/canvas_impl.h"
#include "draw/direction.h"

namespace sightfall::draw {

namespace {

constexpr const char* kTypeface = "DejaVu Sans, Bitstream Vera Sans, sans-serif";

struct ReleasePango {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoContext* context) const { g_object_unref(context); }
  void operator()(PangoFontMap* fonts) const { g_object_unref(fonts); }
};
using Layout = std::unique_ptr<PangoLayout, ReleasePango>;

/// The state of a cairo context, put back at the end of the scope.
class Saved {
 public:
  explicit Saved(cairo_t* cairo) : cairo_{cairo} { cairo_save(cairo_); }
  ~Saved() { cairo_restore(cairo_); }
  Saved(const Saved&) = delete;
  Saved& operator=(const Saved&) = delete;

 private:
  cairo_t* cairo_;
};

void set_colour(cairo_t* cairo, Colour c) { cairo_set_source_rgba(cairo, c.red, c.green, c.blue, c.opacity); }

void trace(cairo_t* cairo, const Shape& shape) {
  cairo_new_path(cairo);
  for (const geom::Polyline& line : shape.lines) {
    cairo_new_sub_path(cairo);
    for (const PagePoint p : line.points) cairo_line_to(cairo, p.x, p.y);
    if (line.closed && !line.points.empty()) cairo_close_path(cairo);
  }
}

/// The fonts a thread has opened. Our own, not the library's shared one, so that they are closed with the thread.
PangoFontMap* fonts() {
  thread_local const std::unique_ptr<PangoFontMap, ReleasePango> kFonts{pango_cairo_font_map_new()};
  return kFonts.get();
}

constexpr std::array<std::string_view, 22> kUnits{"%",   "m",      "mm", "ft", "deg", "px", "px/m", "px/ft",
                                                  "m/s", "ft/s",   "s",  "W",  "N",   "V",  "Ah",   "MPa",
                                                  "dB",  "Mbit/s", "TB", "GB", "lx",  "Hz"};

/// Where feet and inches, `12 ft 7 in`, begin that end in this word, so that their parts stay together.
std::optional<size_t> feet_before(const std::string& text, size_t begin, std::string_view word) {
  constexpr std::string_view kFeet = "ft";
  if (word != "in" || begin < 2 || !g_ascii_isdigit(text[begin - 2])) return std::nullopt;
  const size_t space = text.find_last_of(' ', begin - 2);
  const bool after_feet = space != std::string::npos && space >= kFeet.size() &&
                          std::string_view{text}.substr(space - kFeet.size(), kFeet.size()) == kFeet;
  return after_feet ? space - kFeet.size() : begin - 2;
}

/// No line ends between a number and its unit, or within a unit.
void keep_units_whole(PangoLayout* layout, const std::string& text) {
  PangoAttrList* whole = pango_attr_list_new();
  for (size_t begin = 0; begin < text.size();) {
    const size_t end = std::min(text.find_first_of(" \n", begin), text.size());
    std::string_view word = std::string_view{text}.substr(begin, end - begin);
    while (!word.empty() && std::string_view{".,;:)"}.find(word.back()) != std::string_view::npos)
      word.remove_suffix(1);
    const std::optional<size_t> feet = feet_before(text, begin, word);
    if (feet || std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end()) {
      const bool counted = begin > 1 && text[begin - 1] == ' ' && g_ascii_isdigit(text[begin - 2]);
      PangoAttribute* attribute = pango_attr_allow_breaks_new(FALSE);
      attribute->start_index = static_cast<guint>(feet.value_or(counted ? begin - 2 : begin));
      attribute->end_index = static_cast<guint>(begin + word.size());
      pango_attr_list_insert(whole, attribute);
    }
    begin = end + 1;
  }
  pango_layout_set_attributes(layout, whole);
  pango_attr_list_unref(whole);
}

/// Letters keep their true widths: hints would fit them to the pixels of one size and one kind of page.
Layout laid_out(cairo_t* cairo, const std::string& text, const Lettering& lettering) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  const std::unique_ptr<PangoContext, ReleasePango> context{pango_font_map_create_context(fonts())};
  pango_cairo_context_set_font_options(context.get(), options);
  pango_cairo_update_context(cairo, context.get());
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  cairo_font_options_destroy(options);
  // Our sentences run from left to right, whatever names they begin with; the context's own direction would give way.
  pango_context_set_base_dir(context.get(), PANGO_DIRECTION_LTR);
  // Of a language that does not write them, letters get a typeface of one that does; of the system's, such as C, which
  // might write any, they get whichever comes first, and the signs of one syllable two different ones.
  pango_context_set_language(context.get(), pango_language_from_string("en"));
  Layout layout{pango_layout_new(context.get())};
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, kTypeface);
  pango_font_description_set_weight(font, lettering.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, lettering.size * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  if (lettering.wrap > 0) pango_layout_set_width(layout.get(), static_cast<int>(lettering.wrap * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_auto_dir(layout.get(), FALSE);
  const std::string ordered = kept_in_order(text);
  pango_layout_set_text(layout.get(), ordered.data(), static_cast<int>(ordered.size()));
  if (lettering.wrap > 0) keep_units_whole(layout.get(), ordered);
  return layout;
}

TextSize size_of(PangoLayout* layout) {
  PangoRectangle logical;
  pango_layout_get_extents(layout, nullptr, &logical);
  return {double(logical.width) / PANGO_SCALE, double(logical.height) / PANGO_SCALE};
}

/// How much lower than a line of our own typeface the first line stands, for letters of another that reach higher.
double reach_above_ours(cairo_t* cairo, PangoLayout* layout, const std::string& text, const Lettering& lettering) {
  if (g_str_is_ascii(text.c_str()) != FALSE) return 0;
  const int ours = pango_layout_get_baseline(laid_out(cairo, "x", lettering).get());
  return double(pango_layout_get_baseline(layout) - ours) / PANGO_SCALE;
}

void show(cairo_t* cairo, PangoLayout* layout, const Lettering& lettering) {
  if (lettering.halo) {
    constexpr double kHaloWidth = 4.5;
    pango_cairo_layout_path(cairo, layout);
    set_colour(cairo, with_opacity(kPaper, 0.85));
    cairo_set_line_width(cairo, kHaloWidth);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke(cairo);
    cairo_move_to(cairo, 0, 0);
  }
  set_colour(cairo, lettering.colour);
  pango_cairo_show_layout(cairo, layout);
}

uint32_t premultiplied(Colour c) {
  const auto part = [&](double value) { return static_cast<uint32_t>(std::lround(255 * value * c.opacity)); };
  return (static_cast<uint32_t>(std::lround(255 * c.opacity)) << 24) | (part(c.red) << 16) | (part(c.green) << 8) |
         part(c.blue);
}

}  // namespace

void ReleaseCairo::operator()(_cairo* cairo) const { cairo_destroy(cairo); }
void ReleaseCairo::operator()(_cairo_surface* surface) const { cairo_surface_destroy(surface); }

TextSize measured(const std::string& text, const Lettering& lettering) {
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)};
  const Cairo cairo{cairo_create(surface.get())};
  return size_of(laid_out(cairo.get(), text, lettering).get());
}

std::vector<std::string> lines_of(const std::string& text, const Lettering& lettering) {
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)};
  const Cairo cairo{cairo_create(surface.get())};
  const Layout layout = laid_out(cairo.get(), text, lettering);
  const std::string whole = pango_layout_get_text(layout.get());
  std::vector<std::string> lines;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
    std::string words = whole.substr(static_cast<size_t>(line->start_index), static_cast<size_t>(line->length));
    while (!words.empty() && words.back() == ' ') words.pop_back();
    lines.push_back(std::move(words));
  }
  return lines;
}

int letters_without_shape(const std::string& text) {
  const Surface surface{cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)};
  const Cairo cairo{cairo_create(surface.get())};
  return pango_layout_get_unknown_glyphs_count(laid_out(cairo.get(), text, {}).get());
}

void Canvas::stroke(const Shape& shape, const Pen& pen) const {
  cairo_t* cairo = impl_.cairo;
  const Saved saved{cairo};
  set_colour(cairo, pen.colour);
  cairo_set_line_width(cairo, pen.width);
  const bool dots = !pen.dashes.empty() && pen.dashes.front() == 0;
  cairo_set_line_cap(cairo, dots || pen.dashes.empty() ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash(cairo, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
  trace(cairo, shape);
  cairo_stroke(cairo);
}

void Canvas::fill(const Shape& shape, Colour colour) const {
  const Saved saved{impl_.cairo};
  set_colour(impl_.cairo, colour);
  cairo_set_fill_rule(impl_.cairo, CAIRO_FILL_RULE_EVEN_ODD);
  trace(impl_.cairo, shape);
  cairo_fill(impl_.cairo);
}

void Canvas::within(const Shape& shape, const std::function<void()>& draw) const {
  const Saved saved{impl_.cairo};
  cairo_set_fill_rule(impl_.cairo, CAIRO_FILL_RULE_EVEN_ODD);
  trace(impl_.cairo, shape);
  cairo_clip(impl_.cairo);
  draw();
}

void Canvas::placed(PagePoint origin, double scale, const std::function<void()>& draw) const {
  const Saved saved{impl_.cairo};
  cairo_translate(impl_.cairo, origin.x, origin.y);
  cairo_scale(impl_.cairo, scale, scale);
  draw();
}

void Canvas::begin_element(const std::string& element) const { cairo_tag_begin(impl_.cairo, element.c_str(), nullptr); }

void Canvas::end_element(const std::string& element) const { cairo_tag_end(impl_.cairo, element.c_str()); }

void Canvas::figure(const std::string& shows, const std::function<void()>& draw) const {
  impl_.figures.push_back(shows);
  begin_element("Figure");
  draw();
  end_element("Figure");
}

void Canvas::hatch(const Shape& shape, const Pen& pen, double spacing) const {
  geom::Box2 box;
  for (const geom::Polyline& line : shape.lines)
    for (const PagePoint p : line.points) box.include(p);
  if (box.empty()) return;
  Shape lines;
  const double step = spacing * std::sqrt(2.0);
  // Each line is x + y = k; k counts from the page's corner, so that neighbours' hatching lines up.
  for (const double k : multiples(step, box.low.x + box.low.y, box.high.x + box.high.y)) {
    const double left = std::max(box.low.x, k - box.high.y), right = std::min(box.high.x, k - box.low.y);
    if (left < right) lines.lines.push_back({{{left, k - left}, {right, k - right}}, false});
  }
  within(shape, [&] { stroke(lines, pen); });
}

void Canvas::tint(const Tint& tint, PagePoint first, double spacing) const {
  const Surface image{cairo_image_surface_create(CAIRO_FORMAT_ARGB32, tint.columns, tint.rows)};
  if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS) return;
  cairo_surface_flush(image.get());
  unsigned char* data = cairo_image_surface_get_data(image.get());
  const int stride = cairo_image_surface_get_stride(image.get());
  for (int row = 0; row < tint.rows; ++row)
    for (int column = 0; column < tint.columns; ++column)
      reinterpret_cast<uint32_t*>(data + static_cast<ptrdiff_t>(row) * stride)[column] = premultiplied(
          tint.colours[static_cast<size_t>(row) * static_cast<size_t>(tint.columns) + static_cast<size_t>(column)]);
  cairo_surface_mark_dirty(image.get());
  const Saved saved{impl_.cairo};
  cairo_translate(impl_.cairo, first.x - spacing / 2, first.y - spacing / 2);
  cairo_scale(impl_.cairo, spacing, spacing);
  cairo_set_source_surface(impl_.cairo, image.get(), 0, 0);
  cairo_pattern_set_filter(cairo_get_source(impl_.cairo), CAIRO_FILTER_BILINEAR);
  cairo_paint(impl_.cairo);
}

void Canvas::photograph(const Photograph& photograph, PagePoint top_left, double scale) const {
  const Surface image{cairo_image_surface_create(CAIRO_FORMAT_RGB24, photograph.columns, photograph.rows)};
  if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS) return;
  cairo_surface_flush(image.get());
  unsigned char* data = cairo_image_surface_get_data(image.get());
  const int stride = cairo_image_surface_get_stride(image.get());
  const uint8_t* from = photograph.rgb;
  for (int row = 0; row < photograph.rows; ++row)
    for (int column = 0; column < photograph.columns; ++column, from += 3)
      reinterpret_cast<uint32_t*>(data + static_cast<ptrdiff_t>(row) * stride)[column] =
          static_cast<uint32_t>(from[0]) << 16 | static_cast<uint32_t>(from[1]) << 8 | from[2];
  cairo_surface_mark_dirty(image.get());
  const Saved saved{impl_.cairo};
  cairo_translate(impl_.cairo, top_left.x, top_left.y);
  cairo_scale(impl_.cairo, scale, scale);
  cairo_set_source_surface(impl_.cairo, image.get(), 0, 0);
  cairo_pattern_set_filter(cairo_get_source(impl_.cairo), scale == 1 ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_GOOD);
  cairo_paint(impl_.cairo);
}

void Canvas::letter(const std::string& text, const Lettering& lettering, PagePoint middle, double turn) const {
  const Saved saved{impl_.cairo};
  const Layout layout = laid_out(impl_.cairo, text, lettering);
  const TextSize size = size_of(layout.get());
  cairo_translate(impl_.cairo, middle.x, middle.y);
  cairo_rotate(impl_.cairo, turn);
  cairo_translate(impl_.cairo, -size.width / 2, -size.height / 2);
  cairo_move_to(impl_.cairo, 0, 0);
  show(impl_.cairo, layout.get(), lettering);
}

void Canvas::letter_from(const std::string& text, const Lettering& lettering, PagePoint top_left) const {
  const Saved saved{impl_.cairo};
  const Layout layout = laid_out(impl_.cairo, text, lettering);
  cairo_translate(impl_.cairo, top_left.x, top_left.y - reach_above_ours(impl_.cairo, layout.get(), text, lettering));
  cairo_move_to(impl_.cairo, 0, 0);
  show(impl_.cairo, layout.get(), lettering);
}

}  // namespace sightfall::draw
