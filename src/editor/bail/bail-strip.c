/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip as a widget: what it shows and how it keeps in step. What the maker does to it is in
 * bail-strip-input.c. */
#include "config.h"

#include "editor/bail/bail-strip-private.h"

#include "editor/bail/bail-cloth.h"
#include "editor/cloth/band-paint.h"
#include "core/base/lattice.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PITCH_LEAST_PX 9.0
#define PITCH_MOST_PX 26.0
#define HEIGHT_MOST_PX 380
#define PAD_PX 8.0

G_DEFINE_FINAL_TYPE (BwBailStrip, bw_bail_strip, GTK_TYPE_WIDGET)

enum { STATUS, N_SIGNALS };
static guint signals[N_SIGNALS];

const BwDrawing *
bw_bail_strip_drawing (BwBailStrip *self)
{
  return bw_project_get_bail_drawing (self->project);
}

/* --- Keeping in step ---------------------------------------------------------------------------
 */

/* Room below the beads for row numbers and what the ends are. */
static double
foot_px (const BwBailStrip *self)
{
  return ceil (2 * self->style.text) + PAD_PX;
}

static double
zoom_for (const BwBailStrip *self, double width, double height)
{
  const BwBandLayout *layout = &self->layout;
  double across = (layout->rows + 1) / 2.0 + 0.5;
  double pitch_px = CLAMP ((width - 2 * PAD_PX) / across, PITCH_LEAST_PX, PITCH_MOST_PX);
  double zoom = pitch_px / (BW_ZOOM_PX_PER_MM * layout->pitch_mm);
  double room = height - foot_px (self) - PAD_PX;
  double most = room / (layout->columns * layout->column_mm * BW_ZOOM_PX_PER_MM);
  return CLAMP (MIN (zoom, most), BW_ZOOM_MIN, BW_ZOOM_MAX);
}

/* The whole strip in the middle; where it is too long for the view, the cursor's part of it. */
static void
place_view (BwBailStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  BwBandLayout *layout = &self->layout;
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  layout->x = 0;
  layout->y = PAD_PX;
  layout->width = width;
  layout->height = MAX (0, height - foot_px (self) - PAD_PX);
  if (layout->rows < 1 || width <= 0)
    return;
  layout->zoom = zoom_for (self, width, height);
  layout->rise = layout->columns / 2.0;
  layout->roll = (layout->rows - 1) / 4.0;
  double half = width / 2 / bw_band_layout_pitch_px (layout) - 0.75;
  double reach = (layout->rows - 1) / 2.0;
  if (2 * half < reach)
    layout->roll = CLAMP (bw_lattice_pitches (self->lead + self->cursor.row), half, reach - half);
}

static void
make_cloth (BwBailStrip *self)
{
  const BwDesign *design = bw_project_get_design (self->project);
  const BwDrawing *bail = bw_bail_strip_drawing (self);
  BwBandLayout *layout = &self->layout;
  int columns = layout->columns, rows = layout->rows;
  g_clear_pointer (&self->cloth, bw_drawing_unref);
  layout->columns = layout->rows = 0;
  if (bail) {
    self->lead = bw_bail_lead (&design->bail);
    self->cloth = bw_bail_cloth (design, bw_project_bail_base (self->project),
                                 bw_project_shown_drawing (self->project), bail);
    layout->columns = bw_drawing_columns (self->cloth);
    layout->rows = bw_drawing_rows (self->cloth);
    layout->pitch_mm = design->gauge.pitch_mm;
    layout->column_mm = design->gauge.column_mm;
    self->cursor.row = CLAMP (self->cursor.row, 1, bw_drawing_rows (bail));
    self->cursor.column = CLAMP (self->cursor.column, 1, layout->columns);
    if (!bw_lattice_has (self->cursor.row, self->cursor.column))
      self->cursor.column += self->cursor.column < layout->columns ? 1 : -1;
  }
  if (columns != layout->columns || rows != layout->rows)
    gtk_widget_queue_resize (GTK_WIDGET (self));
  place_view (self);
}

static void
on_changed (BwBailStrip *self, guint what)
{
  if (!(what & (BW_CHANGED_DESIGN | BW_CHANGED_CELLS | BW_CHANGED_TRAY)))
    return;
  make_cloth (self);
  bw_bail_strip_tell (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drop_project (BwBailStrip *self)
{
  if (self->project != NULL)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
}

static void
take_project (BwBailStrip *self)
{
  if (self->project != NULL)
    bw_bail_strip_end (self, FALSE);
  drop_project (self);
  self->project = g_object_ref (bw_session_get_project (self->session));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (on_changed), self);
  on_changed (self, BW_CHANGED_ALL);
}

static void
take_hover (BwBailStrip *self)
{
  bw_bail_strip_tell (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
settle (BwBailStrip *self)
{
  bw_bail_strip_end (self, TRUE);
}

/* --- Words -------------------------------------------------------------------------------------
 */

static gboolean
has_bead (BwBailStrip *self, int row, int column)
{
  const BwDrawing *drawing = bw_bail_strip_drawing (self);
  return drawing && row >= 1 && row <= bw_drawing_rows (drawing) && column >= 1
         && column <= bw_drawing_columns (drawing) && bw_lattice_has (row, column);
}

/* Owned; NULL where the bail has no such bead. */
static char *
bead_words (BwBailStrip *self, int row, int column)
{
  const BwDrawing *drawing = bw_bail_strip_drawing (self);
  const BwTray *tray = bw_project_shown_tray (self->project);
  if (!has_bead (self, row, column))
    return NULL;
  const BwColour *colour = &tray->colour[bw_drawing_get (drawing, row, column)];
  char letter[7] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  if (colour->name[0] != '\0')
    return g_strdup_printf (_ ("Bail, row %d, column %d, %s"), row, column, colour->name);
  return g_strdup_printf (_ ("Bail, row %d, column %d, colour %s"), row, column, letter);
}

static gboolean
hovered (BwBailStrip *self, BwBeadAt *bead)
{
  gboolean in_bail;
  bw_session_get_hover (self->session, &in_bail, &bead->row, &bead->column);
  return in_bail && bead->row > 0;
}

void
bw_bail_strip_tell (BwBailStrip *self)
{
  BwBeadAt hover;
  g_autofree char *at_hover
      = hovered (self, &hover) ? bead_words (self, hover.row, hover.column) : NULL;
  g_autofree char *at_cursor = bead_words (self, self->cursor.row, self->cursor.column);
  const char *words = at_hover ? at_hover : "";
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  at_cursor ? at_cursor : "", -1);
  if (g_strcmp0 (self->words, words) == 0)
    return;
  g_free (self->words);
  self->words = g_strdup (words);
  g_signal_emit (self, signals[STATUS], 0, words);
}

void
bw_bail_strip_set_cursor (BwBailStrip *self, BwBeadAt bead, gboolean shown)
{
  self->cursor = bead;
  self->cursor_shown = shown;
  if (shown) {
    place_view (self);
    bw_session_set_hover (self->session, TRUE, bead.row, bead.column);
  }
  bw_bail_strip_tell (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- Drawing -----------------------------------------------------------------------------------
 */

/* What belongs to the band recedes: it is there to go on from. */
static void
veil (const BwBandPaint *paint, int first_row, int last_row)
{
  GdkRGBA ground = paint->style->ground;
  ground.alpha = 0.62f;
  for (int column = 1; column <= paint->layout->columns; column++)
    for (int row = first_row; row <= last_row; row++) {
      if (!bw_lattice_has (row, column))
        continue;
      graphene_rect_t rect = bw_band_paint_brick (paint, row, column);
      gtk_snapshot_append_color (paint->snapshot, &ground, &rect);
    }
}

static void
number_rows (const BwBailStrip *self, const BwBandPaint *paint)
{
  int rows = paint->layout->rows - 2 * self->lead;
  double row_px = bw_band_layout_pitch_px (paint->layout) / 2;
  double y = bw_band_paint_y (paint, 0) + 3, room = 3.5 * paint->style->digit;
  int step = row_px * 5 >= room ? 5 : row_px * 10 >= room ? 10 : 50;
  for (int row = 1; row <= rows; row += row == 1 && step > 1 ? step - 1 : step) {
    g_autofree char *number = g_strdup_printf ("%d", row);
    double x = bw_band_layout_x (paint->layout, bw_lattice_pitches (self->lead + row));
    bw_band_paint_text (paint, number, x, y, paint->style->ink);
  }
}

/* What the two ends are, under the band's beads there. */
static void
name_ends (const BwBailStrip *self, const BwBandPaint *paint)
{
  const BwBandLayout *layout = paint->layout;
  const char *words[2] = { _ ("off the band"), _ ("sewn down") };
  double y = bw_band_paint_y (paint, 0) + 3 + paint->style->text;
  if (self->lead == 0)
    return;
  for (int i = 0; i < 2; i++) {
    double half = bw_band_paint_text_width (paint, words[i]) / 2 + 4;
    int row = i == 0 ? self->lead / 2 : layout->rows - self->lead / 2;
    double x = bw_band_layout_x (layout, bw_lattice_pitches (row));
    x = CLAMP (x, half, MAX (half, layout->width - half));
    bw_band_paint_text (paint, words[i], x, y, paint->style->ink);
  }
}

static void
paint_strip (BwBailStrip *self, const BwBandPaint *paint)
{
  BwBeadAt hover, cursor = self->cursor;
  gboolean focus = self->cursor_shown && gtk_widget_has_focus (GTK_WIDGET (self));
  double line = paint->style->line;
  bw_band_beads_take (paint, self->tiles, self->project, self->cloth, FALSE);
  bw_band_paint_beads (paint, self->tiles, 0, 1);
  bw_band_tiles_trim (self->tiles);
  veil (paint, 1, self->lead);
  veil (paint, paint->layout->rows - self->lead + 1, paint->layout->rows);
  number_rows (self, paint);
  name_ends (self, paint);
  if (hovered (self, &hover) && has_bead (self, hover.row, hover.column)) {
    hover.row += self->lead;
    bw_band_paint_marked (paint, hover, paint->style->mark, line);
  }
  cursor.row += self->lead;
  if (focus)
    bw_band_paint_marked (paint, cursor, paint->style->mark, 2 + line);
}

static void
bw_bail_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBailStrip *self = BW_BAIL_STRIP (widget);
  BwBandPaint paint = {
    .snapshot = snapshot,
    .layout = &self->layout,
    .style = &self->style,
    .text = self->text,
    .range = { 0, 0, 1, self->layout.rows, 1, self->layout.columns },
    .scale = gtk_widget_get_scale_factor (widget),
    .widget_height = gtk_widget_get_height (widget),
  };
  double width = gtk_widget_get_width (widget);
  bw_band_paint_rect (&paint, 0, 0, width, paint.widget_height, self->style.ground);
  if (self->cloth && width > 0 && self->layout.height > 0)
    paint_strip (self, &paint);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
take_style (BwBailStrip *self)
{
  bw_band_style_init (&self->style, GTK_WIDGET (self));
  g_clear_object (&self->text);
  self->text = bw_band_style_layout (GTK_WIDGET (self));
  place_view (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
bw_bail_strip_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bw_bail_strip_parent_class)->css_changed (widget, change);
  take_style (BW_BAIL_STRIP (widget));
}

static void
bw_bail_strip_system_setting_changed (GtkWidget *widget, GtkSystemSetting setting)
{
  GTK_WIDGET_CLASS (bw_bail_strip_parent_class)->system_setting_changed (widget, setting);
  take_style (BW_BAIL_STRIP (widget));
}

static void
bw_bail_strip_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_bail_strip_parent_class)->root (widget);
  take_style (BW_BAIL_STRIP (widget));
}

static void
bw_bail_strip_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  place_view (BW_BAIL_STRIP (widget));
}

static void
bw_bail_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwBailStrip *self = BW_BAIL_STRIP (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 180;
    *natural = 360;
    return;
  }
  double rest = foot_px (self) + PAD_PX, beads = 0;
  if (self->cloth)
    beads = self->layout.columns * self->layout.column_mm * BW_ZOOM_PX_PER_MM
            * zoom_for (self, for_size < 0 ? 360 : for_size, HEIGHT_MOST_PX);
  *minimum = *natural = (int)ceil (MIN (beads + rest, HEIGHT_MOST_PX));
}

static GtkSizeRequestMode
bw_bail_strip_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bail_strip_dispose (GObject *object)
{
  BwBailStrip *self = BW_BAIL_STRIP (object);
  if (self->project != NULL)
    bw_bail_strip_end (self, FALSE);
  drop_project (self);
  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  g_clear_object (&self->text);
  g_clear_pointer (&self->cloth, bw_drawing_unref);
  G_OBJECT_CLASS (bw_bail_strip_parent_class)->dispose (object);
}

static void
bw_bail_strip_finalize (GObject *object)
{
  BwBailStrip *self = BW_BAIL_STRIP (object);
  bw_band_tiles_free (self->tiles);
  g_free (self->words);
  G_OBJECT_CLASS (bw_bail_strip_parent_class)->finalize (object);
}

static void
bw_bail_strip_class_init (BwBailStripClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  object_class->dispose = bw_bail_strip_dispose;
  object_class->finalize = bw_bail_strip_finalize;
  widget_class->css_changed = bw_bail_strip_css_changed;
  widget_class->system_setting_changed = bw_bail_strip_system_setting_changed;
  widget_class->root = bw_bail_strip_root;
  widget_class->size_allocate = bw_bail_strip_size_allocate;
  widget_class->measure = bw_bail_strip_measure;
  widget_class->get_request_mode = bw_bail_strip_get_request_mode;
  widget_class->snapshot = bw_bail_strip_snapshot;
  signals[STATUS] = g_signal_new ("status", BW_TYPE_BAIL_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_css_name (widget_class, "bailstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bw_bail_strip_init (BwBailStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  self->tiles = bw_band_tiles_new ();
  self->layout.zoom = 1;
  self->cursor = (BwBeadAt){ 1, 2 };
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_cursor_from_name (widget, "crosshair");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Beads of the bail"), -1);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (gtk_widget_queue_draw), NULL);
}

GtkWidget *
bw_bail_strip_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwBailStrip *self = g_object_new (BW_TYPE_BAIL_STRIP, NULL);
  self->session = g_object_ref (session);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (take_project), self);
  g_signal_connect_swapped (session, "hover-changed", G_CALLBACK (take_hover), self);
  g_signal_connect_swapped (session, "settle", G_CALLBACK (settle), self);
  bw_bail_strip_add_controllers (self);
  take_project (self);
  take_style (self);
  return GTK_WIDGET (self);
}

/* --- What others ask ---------------------------------------------------------------------------
 */

gboolean
bw_bail_strip_bead_at (BwBailStrip *self, double x, double y, int *row, int *column)
{
  const BwDrawing *drawing = bw_bail_strip_drawing (self);
  if (!drawing || !self->cloth)
    return FALSE;
  BwBeadAt brick = bw_band_brick (bw_band_layout_point (&self->layout, x, y));
  *row = brick.row - self->lead;
  *column = brick.column;
  return *row >= 1 && *row <= bw_drawing_rows (drawing) && *column >= 1
         && *column <= bw_drawing_columns (drawing);
}

gboolean
bw_bail_strip_bead_point (BwBailStrip *self, int row, int column, double *x, double *y)
{
  if (!has_bead (self, row, column))
    return FALSE;
  BwBandPoint middle = bw_band_middle (self->lead + row, column);
  *x = bw_band_layout_x (&self->layout, middle.u);
  *y = bw_band_layout_y (&self->layout, middle.v);
  return TRUE;
}

void
bw_bail_strip_fill (BwBailStrip *self)
{
  const BwDrawing *drawing = bw_bail_strip_drawing (self);
  bw_session_settle (self->session);
  if (!drawing)
    return;
  g_autoptr (BwDrawing) plain
      = bw_drawing_new (bw_drawing_columns (drawing), bw_drawing_rows (drawing),
                        (guint8)bw_session_get_colour (self->session));
  bw_project_set_drawing (self->project, _ ("Bail in one colour"), TRUE, plain, NULL);
}

void
bw_bail_strip_follow_band (BwBailStrip *self)
{
  bw_session_settle (self->session);
  if (!bw_bail_strip_drawing (self))
    return;
  g_autoptr (BwDrawing) beneath = bw_bail_beneath (bw_project_get_design (self->project),
                                                   bw_project_bail_base (self->project),
                                                   bw_project_get_drawing (self->project));
  bw_project_set_drawing (self->project, _ ("Bail as the band beneath"), TRUE, beneath, NULL);
}
