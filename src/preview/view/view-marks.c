/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks over the picture while the piece hangs: the plumb line from the point it hangs by, the
 * balance point that comes to rest on it, and the angle between the stone's axis and the line. They
 * lie over picture and stone alike, so every line is dark with a light seam. */
#include "preview/view/view-marks.h"

#include "core/pattern/tint.h"
#include "project/hang-words.h"

#define BELOW_MM 6.0 /* how far the plumb line reaches below the piece */
#define ARC_STEPS 24
#define MARK_PIXELS 7.0
#define USUAL_WORDS_PIXELS 22 /* a line of words under the piece finds so much room anyway */

typedef struct {
  cairo_t *cr;
  const BwScene *scene;
  BwEye eye;
  int width, height;
} Marks;

static gboolean
locate (const Marks *m, BwVec3 at, double *x, double *y)
{
  const float p[3] = { (float)at.x, (float)at.y, (float)at.z };
  return bw_eye_project (&m->eye, p, m->width, m->height, x, y);
}

/* From a place along a direction of the piece. */
static BwVec3
off (BwVec3 from, BwVec3 direction, double distance)
{
  return bw_vec3_add (from, bw_vec3_scale (direction, distance));
}

static BwVec3
up_in_piece (const Marks *m)
{
  return bw_pose_turn_back (m->scene->stance.pose, bw_vec3 (0, 0, 1));
}

static void
line_to (const Marks *m, BwVec3 at)
{
  double x, y;
  if (locate (m, at, &x, &y))
    cairo_line_to (m->cr, x, y);
}

/* Strokes the path dark on a light seam. */
static void
stroke (const Marks *m, double width, double strength)
{
  cairo_set_line_width (m->cr, width + 2);
  cairo_set_source_rgba (m->cr, BW_ON_PAPER (CARD), 0.6 * strength);
  cairo_stroke_preserve (m->cr);
  cairo_set_line_width (m->cr, width);
  cairo_set_source_rgba (m->cr, BW_ON_PAPER (INK), 0.9 * strength);
  cairo_stroke (m->cr);
}

static void
draw_plumb_line (const Marks *m)
{
  const double dash[] = { 7, 4 };
  const BwSceneRest *rest = &m->scene->rest;
  cairo_new_path (m->cr);
  line_to (m, rest->hold);
  line_to (m, off (rest->hold, up_in_piece (m), -rest->drop - BELOW_MM));
  cairo_set_dash (m->cr, dash, 2, 0);
  stroke (m, 1.4, 1);
}

/* The stone's axis from the balance point's height to a little beyond its upper end, and the arc
 * from it to the plumb line. */
static void
draw_angle (const Marks *m)
{
  const double dash[] = { 2, 3 };
  const BwSceneRest *rest = &m->scene->rest;
  BwVec3 axis = bw_vec3 (0, 0, rest->up == BW_UP_BASE ? -1 : 1), up = up_in_piece (m);
  double reach = 0.5 * (double)m->scene->radius, cosine = CLAMP (bw_vec3_dot (axis, up), -1, 1);
  double angle = acos (cosine);
  cairo_new_path (m->cr);
  line_to (m, off (rest->centroid, axis, -1.3 * reach));
  line_to (m, off (rest->centroid, axis, 1.3 * reach));
  cairo_set_dash (m->cr, dash, 2, 0);
  stroke (m, 1, 0.7);
  cairo_set_dash (m->cr, NULL, 0, 0);
  if (angle < 0.02)
    return;
  BwVec3 aside = bw_vec3_scale (bw_vec3_sub (axis, bw_vec3_scale (up, cosine)), 1 / sin (angle));
  cairo_new_path (m->cr);
  for (int i = 0; i <= ARC_STEPS; i++) {
    double a = angle * i / ARC_STEPS;
    BwVec3 way = bw_vec3_add (bw_vec3_scale (up, cos (a)), bw_vec3_scale (aside, sin (a)));
    line_to (m, off (rest->centroid, way, 0.55 * reach));
  }
  stroke (m, 1, 0.7);
}

/* The balance point as engineers mark it: a circle with two of its quarters filled. */
static void
draw_balance (const Marks *m)
{
  double x, y;
  if (!locate (m, m->scene->rest.centroid, &x, &y))
    return;
  cairo_new_path (m->cr);
  cairo_arc (m->cr, x, y, MARK_PIXELS, 0, 2 * G_PI);
  cairo_set_source_rgba (m->cr, BW_ON_PAPER (CARD), 0.92);
  cairo_fill_preserve (m->cr);
  stroke (m, 1.4, 1);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (m->cr, x, y);
    cairo_arc (m->cr, x, y, MARK_PIXELS, i * G_PI, i * G_PI + G_PI / 2);
    cairo_close_path (m->cr);
    cairo_set_source_rgb (m->cr, BW_ON_PAPER (INK));
    cairo_fill (m->cr);
  }
}

/* Wrapped where the picture is narrow. A width that is not needed moves words from right to left to
 * its far edge, by less than a point beside where they are told to be. Owned. */
static PangoLayout *
tilt_layout (GtkWidget *widget, const BwScene *scene, int width)
{
  g_autofree char *words = bw_hang_sentence (scene->rest.up, scene->rest.tilt_deg);
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, words);
  int wide, room = MAX (width - 24, 24);
  pango_layout_get_pixel_size (layout, &wide, NULL);
  if (wide > room)
    pango_layout_set_width (layout, room * PANGO_SCALE);
  return layout;
}

int
bw_view_marks_extra (GtkWidget *widget, const BwScene *scene, int width)
{
  g_autoptr (PangoLayout) layout = tilt_layout (widget, scene, width);
  int high;
  pango_layout_get_pixel_size (layout, NULL, &high);
  return MAX (high - USUAL_WORDS_PIXELS, 0);
}

/* Under the lower end of the plumb line, wholly inside the view. */
static void
write_tilt (const Marks *m, GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = tilt_layout (widget, m->scene, m->width);
  PangoRectangle ink;
  double x = m->width / 2.0, y = m->height;
  const BwSceneRest *rest = &m->scene->rest;
  locate (m, off (rest->hold, up_in_piece (m), -rest->drop - BELOW_MM), &x, &y);
  pango_layout_get_pixel_extents (layout, NULL, &ink);
  int wide = ink.width, high = ink.height;
  x = CLAMP (x - wide / 2.0, 12, MAX (m->width - wide - 12.0, 12));
  /* What was kept free for large words is theirs. */
  double foot = m->height * (1 - (double)m->scene->free_below) + MAX (high - USUAL_WORDS_PIXELS, 0);
  y = CLAMP (y + 8, 12, MAX (foot - high - 10, 12));
  cairo_new_path (m->cr);
  cairo_set_source_rgba (m->cr, BW_ON_PAPER (INK), 0.9);
  double r = high / 2.0 + 3;
  cairo_arc (m->cr, x, y + high / 2.0, r, G_PI / 2, 1.5 * G_PI);
  cairo_arc (m->cr, x + wide, y + high / 2.0, r, -G_PI / 2, G_PI / 2);
  cairo_close_path (m->cr);
  cairo_fill (m->cr);
  cairo_move_to (m->cr, x - ink.x, y - ink.y); /* from right to left it begins at the far edge */
  cairo_set_source_rgb (m->cr, BW_ON_PAPER (CARD));
  pango_cairo_show_layout (m->cr, layout);
}

void
bw_view_marks_draw (GtkWidget *widget, GtkSnapshot *snapshot, const BwScene *scene, BwCamera camera,
                    int width, int height)
{
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  Marks m = { .scene = scene, .width = width, .height = height };
  if (width < 1 || height < 1)
    return;
  m.cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  bw_eye_init (&m.eye, camera, m.scene, width, height);
  draw_angle (&m);
  draw_plumb_line (&m);
  draw_balance (&m);
  write_tilt (&m, widget);
  cairo_destroy (m.cr);
}
