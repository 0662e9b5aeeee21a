/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stands in for the drawing library's functions, as the definitions of a program come before a
 * library's, and hands on to them. */
#define _GNU_SOURCE
#include "pen.h"

#include "output/page/page.h"

#include <dlfcn.h>
#include <math.h>
#include <pango/pangocairo.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

static GArray *all_words, *all_lines, *all_boxes;

#define REAL(name) ((__typeof__ (name) *)dlsym (RTLD_NEXT, #name))

static void
clear_words (gpointer words)
{
  g_free (((PenWords *)words)->text);
}

void
pen_begin (void)
{
  g_clear_pointer (&all_words, g_array_unref);
  g_clear_pointer (&all_lines, g_array_unref);
  g_clear_pointer (&all_boxes, g_array_unref);
  all_words = g_array_new (FALSE, FALSE, sizeof (PenWords));
  all_lines = g_array_new (FALSE, FALSE, sizeof (PenLine));
  all_boxes = g_array_new (FALSE, FALSE, sizeof (PenLine));
  g_array_set_clear_func (all_words, clear_words);
}

static void
where_it_is (cairo_t *cr, double *x, double *y)
{
  *x = *y = 0;
  if (cairo_has_current_point (cr))
    cairo_get_current_point (cr, x, y);
  cairo_user_to_device (cr, x, y);
}

static guint32
colour_of (cairo_t *cr)
{
  double part[3], opacity;
  guint32 srgb = 0;
  if (cairo_pattern_get_rgba (cairo_get_source (cr), &part[0], &part[1], &part[2], &opacity))
    return 0;
  for (int i = 0; i < 3; i++)
    srgb = srgb << 8 | (guint32)(part[i] * 255 + 0.5);
  return srgb;
}

/* What a page is drawn in, a stretch at a time, knows its page. */
static const void *
page_of (cairo_t *cr)
{
  cairo_surface_t *target = cairo_get_target (cr);
  const void *page = cairo_surface_get_user_data (target, &bw_sheet_page_key);
  return page ? page : target;
}

static void
note_words (cairo_t *cr, char *text, PangoRectangle extents, double above)
{
  PenWords words = { .text = text, .page = page_of (cr), .srgb = colour_of (cr) };
  where_it_is (cr, &words.x, &words.y);
  words.width = (double)extents.width / PANGO_SCALE;
  words.height = (double)extents.height / PANGO_SCALE;
  double down = above;
  cairo_user_to_device_distance (cr, &words.width, &words.height);
  cairo_user_to_device_distance (cr, &above, &down);
  words.y -= down;
  g_array_append_val (all_words, words);
}

void
pango_cairo_show_layout (cairo_t *cr, PangoLayout *layout)
{
  if (all_words) {
    PangoRectangle extents;
    pango_layout_get_extents (layout, NULL, &extents);
    note_words (cr, g_strdup (pango_layout_get_text (layout)), extents, 0);
  }
  REAL (pango_cairo_show_layout) (cr, layout);
}

void
pango_cairo_show_layout_line (cairo_t *cr, PangoLayoutLine *line)
{
  if (all_words) {
    PangoRectangle extents;
    pango_layout_line_get_extents (line, NULL, &extents);
    note_words (
        cr,
        g_strndup (pango_layout_get_text (line->layout) + line->start_index, (gsize)line->length),
        extents, -(double)extents.y / PANGO_SCALE);
  }
  REAL (pango_cairo_show_layout_line) (cr, line);
}

static void
note_line (cairo_t *cr, double from_x, double from_y)
{
  PenLine line = { from_x, from_y, 0, 0, page_of (cr) };
  where_it_is (cr, &line.x1, &line.y1);
  if (all_lines)
    g_array_append_val (all_lines, line);
}

void
cairo_line_to (cairo_t *cr, double x, double y)
{
  double from_x, from_y;
  where_it_is (cr, &from_x, &from_y);
  REAL (cairo_line_to) (cr, x, y);
  note_line (cr, from_x, from_y);
}

void
cairo_rel_line_to (cairo_t *cr, double x, double y)
{
  double from_x, from_y;
  where_it_is (cr, &from_x, &from_y);
  REAL (cairo_rel_line_to) (cr, x, y);
  note_line (cr, from_x, from_y);
}

void
cairo_rectangle (cairo_t *cr, double x, double y, double width, double height)
{
  PenLine box = { 0, 0, 0, 0, page_of (cr) };
  REAL (cairo_rectangle) (cr, x, y, width, height);
  where_it_is (cr, &box.x0, &box.y0);
  box.x1 = box.x0 + width;
  box.y1 = box.y0 + height;
  if (all_boxes)
    g_array_append_val (all_boxes, box);
}

guint
pen_n_words (void)
{
  return all_words->len;
}

const PenWords *
pen_word (guint i)
{
  return &g_array_index (all_words, PenWords, i);
}

guint
pen_n_lines (void)
{
  return all_lines->len;
}

const PenLine *
pen_line (guint i)
{
  return &g_array_index (all_lines, PenLine, i);
}

guint
pen_n_boxes (void)
{
  return all_boxes->len;
}

const PenLine *
pen_box (guint i)
{
  return &g_array_index (all_boxes, PenLine, i);
}

const PenWords *
pen_look_for (const char *beginning)
{
  for (guint i = 0; i < all_words->len; i++)
    if (g_str_has_prefix (pen_word (i)->text, beginning))
      return pen_word (i);
  return NULL;
}

const PenWords *
pen_find (const char *beginning)
{
  const PenWords *found = pen_look_for (beginning);
  if (!found)
    fail_msg ("nothing is written that begins “%s”", beginning);
  return found;
}

const PenWords *
pen_at (const char *text, double x)
{
  for (guint i = 0; i < all_words->len; i++)
    if (g_str_equal (pen_word (i)->text, text) && fabs (pen_middle (pen_word (i)) - x) < 1)
      return pen_word (i);
  return NULL;
}

char *
pen_text (void)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < all_words->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", g_strstrip (pen_word (i)->text));
  return g_string_free (text, FALSE);
}
