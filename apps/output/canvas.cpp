// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/canvas.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <stdexcept>

#include "apps/output/plain_text.hpp"

namespace coilpull {
namespace {

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(std::string("a picture cannot be drawn: ") + cairo_status_to_string(status));
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned count) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), count);
  return CAIRO_STATUS_SUCCESS;
}

struct SurfaceEnd {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;

/// An SVG keeps a reference to what was played to it, for ever (cairo 1.16): without an end to it all strokes
/// stay.
struct RecordEnd {
  void operator()(cairo_surface_t* record) const {
    cairo_surface_finish(record);
    cairo_surface_destroy(record);
  }
};
using Record = std::unique_ptr<cairo_surface_t, RecordEnd>;

struct PenEnd {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Drawing = std::unique_ptr<cairo_t, PenEnd>;

void set_colour(cairo_t* to, const Colour& c) { cairo_set_source_rgba(to, c.red, c.green, c.blue, c.cover); }

void trace(cairo_t* to, const Line& line) {
  for (std::size_t i = 0; i < line.size(); ++i)
    i == 0 ? cairo_move_to(to, line[i].x, line[i].y) : cairo_line_to(to, line[i].x, line[i].y);
}

void draw_path(cairo_t* to, const Pen& pen) {
  set_colour(to, pen.colour);
  cairo_set_line_width(to, pen.width);
  cairo_set_dash(to, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
  cairo_stroke(to);
}

void choose_font(cairo_t* to, double size, bool bold) {
  cairo_select_font_face(to, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                         bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(to, size);
}

}  // namespace

struct Canvas::Sheet {
  Record record;  ///< what was drawn, to be played to any format
  Drawing cairo;

  void play_to(cairo_surface_t* surface, double scale) const {
    const Drawing target(cairo_create(surface));
    cairo_scale(target.get(), scale, scale);
    cairo_set_source_surface(target.get(), record.get(), 0, 0);
    cairo_paint(target.get());
    check(cairo_status(target.get()));
  }
};

Canvas::Canvas(double width, double height)
    : width_(width), height_(height), sheet_(std::make_unique<Sheet>()) {
  const cairo_rectangle_t extent = {0, 0, width, height};
  sheet_->record.reset(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extent));
  sheet_->cairo.reset(cairo_create(sheet_->record.get()));
  cairo_t* to = sheet_->cairo.get();
  cairo_font_options_t* fonts = cairo_font_options_create();
  cairo_font_options_set_hint_style(fonts, CAIRO_HINT_STYLE_NONE);  // one layout at every scale
  cairo_font_options_set_hint_metrics(fonts, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(fonts, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(to, fonts);
  cairo_font_options_destroy(fonts);
  cairo_set_line_join(to, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgb(to, 1, 1, 1);
  cairo_paint(to);
}

Canvas::~Canvas() = default;
Canvas::Canvas(Canvas&&) noexcept = default;

void Canvas::stroke(const Line& line, const Pen& pen) {
  trace(sheet_->cairo.get(), line);
  draw_path(sheet_->cairo.get(), pen);
}

void Canvas::stroke(const std::vector<Line>& lines, const Pen& pen) {
  for (const Line& line : lines) trace(sheet_->cairo.get(), line);
  draw_path(sheet_->cairo.get(), pen);
}

void Canvas::outline(const Line& corners, const Pen& pen) {
  trace(sheet_->cairo.get(), corners);
  cairo_close_path(sheet_->cairo.get());
  draw_path(sheet_->cairo.get(), pen);
}

void Canvas::fill(const Line& corners, const Colour& colour) {
  trace(sheet_->cairo.get(), corners);
  set_colour(sheet_->cairo.get(), colour);
  cairo_fill(sheet_->cairo.get());
}

void Canvas::disc(Spot centre, double radius, const Colour& colour) {
  cairo_arc(sheet_->cairo.get(), centre.x, centre.y, radius, 0, 2 * M_PI);
  set_colour(sheet_->cairo.get(), colour);
  cairo_fill(sheet_->cairo.get());
}

void Canvas::ring(Spot centre, double radius, const Pen& pen) {
  cairo_new_sub_path(sheet_->cairo.get());
  cairo_arc(sheet_->cairo.get(), centre.x, centre.y, radius, 0, 2 * M_PI);
  draw_path(sheet_->cairo.get(), pen);
}

void Canvas::image(const Pixels& pixels, const Area& area) {
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels.columns, pixels.rows));
  check(cairo_surface_status(surface.get()));
  unsigned char* bytes = cairo_image_surface_get_data(surface.get());
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface.get());
  for (int row = 0; row < pixels.rows; ++row) {
    auto* line = reinterpret_cast<unsigned*>(bytes + row * stride);
    for (int column = 0; column < pixels.columns; ++column)
      line[column] = pixels.rgb[static_cast<std::size_t>(row) * pixels.columns + column];
  }
  cairo_surface_mark_dirty(surface.get());
  cairo_t* to = sheet_->cairo.get();
  cairo_save(to);
  cairo_translate(to, area.x_from, area.y_from);
  cairo_scale(to, (area.x_to - area.x_from) / pixels.columns, (area.y_to - area.y_from) / pixels.rows);
  cairo_set_source_surface(to, surface.get(), 0, 0);
  cairo_pattern_set_extend(cairo_get_source(to), CAIRO_EXTEND_PAD);
  cairo_rectangle(to, 0, 0, pixels.columns, pixels.rows);
  cairo_fill(to);
  cairo_restore(to);
}

void Canvas::place(const Canvas& drawing, Spot corner) {
  cairo_t* to = sheet_->cairo.get();
  cairo_set_source_surface(to, drawing.sheet_->record.get(), corner.x, corner.y);
  cairo_rectangle(to, corner.x, corner.y, drawing.width_, drawing.height_);
  cairo_fill(to);
}

void Canvas::text(Spot at, const std::string& words, const Lettering& lettering) {
  const std::string clean = plain_text(words);
  cairo_t* to = sheet_->cairo.get();
  cairo_save(to);
  choose_font(to, lettering.size, lettering.bold);
  cairo_translate(to, at.x, at.y);
  if (lettering.upward) cairo_rotate(to, -M_PI / 2);
  const double back = lettering.anchor * text_length(words, lettering.size, lettering.bold);
  const Spot start{-back, 0.36 * lettering.size};  // capitals are about 0.72 high
  if (lettering.halo) {
    cairo_move_to(to, start.x, start.y);
    cairo_text_path(to, clean.c_str());
    draw_path(to, {{1, 1, 1, 0.85}, 3.5});
  }
  cairo_move_to(to, start.x, start.y);
  set_colour(to, lettering.colour);
  cairo_show_text(to, clean.c_str());
  cairo_new_path(to);
  cairo_restore(to);
}

double Canvas::text_length(const std::string& words, double size, bool bold) const {
  cairo_t* to = sheet_->cairo.get();
  choose_font(to, size, bold);
  cairo_text_extents_t extents;
  cairo_text_extents(to, plain_text(words).c_str(), &extents);
  return extents.x_advance;
}

std::string Canvas::shortened(const std::string& words, double length, double size, bool bold) const {
  std::string clean = plain_text(words);
  if (text_length(clean, size, bold) <= length) return clean;
  while (!clean.empty() && text_length(clean + "...", size, bold) > length) drop_last_letter(clean);
  return clean + "...";
}

void Canvas::begin_clip(const Area& area) {
  cairo_t* to = sheet_->cairo.get();
  cairo_save(to);
  cairo_rectangle(to, area.x_from, area.y_from, area.x_to - area.x_from, area.y_to - area.y_from);
  cairo_clip(to);
}

void Canvas::end_clip() { cairo_restore(sheet_->cairo.get()); }

std::string Canvas::png(double scale) const {
  check(cairo_status(sheet_->cairo.get()));
  const Surface target(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                  static_cast<int>(std::lround(scale * width_)),
                                                  static_cast<int>(std::lround(scale * height_))));
  check(cairo_surface_status(target.get()));
  sheet_->play_to(target.get(), scale);
  std::string bytes;
  check(cairo_surface_write_to_png_stream(target.get(), append, &bytes));
  return bytes;
}

Pixels Canvas::pixels(double scale) const {
  check(cairo_status(sheet_->cairo.get()));
  Pixels all{
      static_cast<int>(std::lround(scale * width_)), static_cast<int>(std::lround(scale * height_)), {}};
  const Surface target(cairo_image_surface_create(CAIRO_FORMAT_RGB24, all.columns, all.rows));
  check(cairo_surface_status(target.get()));
  sheet_->play_to(target.get(), scale);
  cairo_surface_flush(target.get());
  const unsigned char* const bytes = cairo_image_surface_get_data(target.get());
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(target.get());
  for (int row = 0; row < all.rows; ++row) {
    const auto* const line = reinterpret_cast<const std::uint32_t*>(bytes + row * stride);
    for (int column = 0; column < all.columns; ++column) all.rgb.push_back(line[column] & 0xffffffU);
  }
  return all;
}

std::string Canvas::svg(const std::string& title) const {
  check(cairo_status(sheet_->cairo.get()));
  std::string bytes;
  const Surface target(cairo_svg_surface_create_for_stream(append, &bytes, width_, height_));
  check(cairo_surface_status(target.get()));
  sheet_->play_to(target.get(), 1);
  cairo_surface_finish(target.get());
  check(cairo_surface_status(target.get()));
  const std::size_t head = bytes.find("<svg"), end = bytes.find('>', head);
  if (head != std::string::npos && end != std::string::npos)
    bytes.insert(end + 1, "\n<title>" + escaped_for_xml(plain_text(title)) + "</title>");
  return bytes;
}

std::string Canvas::pdf(const std::string& title) const {
  check(cairo_status(sheet_->cairo.get()));
  std::string bytes;
  const Surface target(cairo_pdf_surface_create_for_stream(append, &bytes, width_, height_));
  check(cairo_surface_status(target.get()));
  cairo_pdf_surface_set_metadata(target.get(), CAIRO_PDF_METADATA_TITLE, plain_text(title).c_str());
  cairo_pdf_surface_set_metadata(target.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 "");  // same drawing, same bytes
  sheet_->play_to(target.get(), 1);
  cairo_surface_finish(target.get());
  check(cairo_surface_status(target.get()));
  return bytes;
}

}  // namespace coilpull
