/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signs that many a font has not are drawn: a box to tick, an arrow that points at a line. So the
 * type that is printed needs letters, numbers and arrows, and any one font will do. */
#include "output/page/page.h"

#include "core/pattern/tint.h"

#include <string.h>

#define SIDE 0.72  /* of a sign, ems */
#define AFTER 0.12 /* room to its right */
#define SINKS 0.04 /* below the line the letters stand on */

static const char *const signs[] = { "☐", "▸" };

static void
draw_sign (cairo_t *cr, PangoAttrShape *shape, gboolean path_only, gpointer data)
{
  double x, y, side = -pango_units_to_double (shape->logical_rect.y) / (SIDE - SINKS) * SIDE;
  if (path_only)
    return;
  cairo_get_current_point (cr, &x, &y);
  y -= pango_units_to_double (-shape->logical_rect.y);
  cairo_save (cr);
  cairo_new_path (cr);
  if (GPOINTER_TO_UINT (shape->data) == 0) {
    cairo_rectangle (cr, x, y, side, side);
    cairo_set_source_rgb (cr, BW_ON_PAPER (NOTE));
    cairo_set_line_width (cr, side / 13);
    cairo_stroke (cr);
  } else {
    cairo_move_to (cr, x, y + side * 0.1);
    cairo_rel_line_to (cr, side * 0.7, side * 0.4);
    cairo_rel_line_to (cr, -side * 0.7, side * 0.4);
    cairo_close_path (cr);
    cairo_fill (cr);
  }
  cairo_restore (cr);
  cairo_new_path (cr);
}

static void
mark_each (PangoAttrList *attributes, const char *text, guint which, double em)
{
  PangoRectangle box
      = { 0, -pango_units_from_double ((SIDE - SINKS) * em),
          pango_units_from_double ((SIDE + AFTER) * em), pango_units_from_double (SIDE * em) };
  for (const char *at = text; (at = strstr (at, signs[which])); at += strlen (signs[which])) {
    PangoAttribute *shape
        = pango_attr_shape_new_with_data (&box, &box, GUINT_TO_POINTER (which), NULL, NULL);
    shape->start_index = (guint)(at - text);
    shape->end_index = shape->start_index + (guint)strlen (signs[which]);
    pango_attr_list_insert (attributes, shape);
  }
}

void
bw_signs_mark (PangoLayout *layout, PangoAttrList *attributes, double em)
{
  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    mark_each (attributes, pango_layout_get_text (layout), i, em);
  pango_cairo_context_set_shape_renderer (pango_layout_get_context (layout), draw_sign, NULL, NULL);
}
