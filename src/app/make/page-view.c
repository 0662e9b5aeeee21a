/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One page is asked for at a time, so that what is asked last is never behind a long row of others.
 */
#include "config.h"

#include "app/make/page-view.h"

#include "app/kit/palette.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define PIXELS_PER_POINT (96 / 72.0) /* at life size */
#define WIDTH_MOST 2.0               /* times life size that pages grow to by themselves */
#define GAP 14                       /* between pages and round them */
#define SMALL_WIDTH 84
#define SMALL_TALLEST 150
#define CAPTION 20   /* under a small page */
#define READ_ON 0.92 /* of the view, so that the eye finds its line again */
#define LINE 48
#define LEAST 100 /* of the view, each way */
#define KEPT_BYTES (192.0 * 1024 * 1024)
#define NEAR_ENOUGH 0.5 /* pixels */

/* A page as it was drawn last. */
typedef struct {
  GdkTexture *picture; /* NULL: not yet */
  double scale;        /* pixels to the point it was asked at; 0: it is of an older set */
} Slot;

struct _BwPageView {
  GtkWidget parent_instance;
  BwPageSet *set;
  GArray *slots; /* of Slot, one a page */
  gboolean small;
  double zoom;
  double scale; /* pixels to the point, as allocated */
  int page;
  GCancellable *drawing; /* NULL: nothing is being drawn */
  guint settling;        /* what follows from a new size is told after it */
  GtkAdjustment *across, *down;
  guint across_policy : 1, down_policy : 1;
};

enum {
  PROP_PAGE = 1,
  PROP_ZOOM,
  PROP_SMALL,
  N_OWN,
  PROP_ACROSS = N_OWN,
  PROP_DOWN,
  PROP_ACROSS_POLICY,
  PROP_DOWN_POLICY
};
static GParamSpec *properties[N_OWN];
enum { PICKED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE_WITH_CODE (BwPageView, bw_page_view, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_SCROLLABLE, NULL))

/* --- Where pages lie ---------------------------------------------------------------------------
 */

static int
count (BwPageView *self)
{
  return self->set ? bw_page_set_n_pages (self->set) : 0;
}

static BwPaper
paper_of (BwPageView *self)
{
  return self->set ? bw_page_set_get_paper (self->set) : BW_PAPER_A4;
}

static int
caption_of (BwPageView *self)
{
  return self->small ? CAPTION : 0;
}

static double
page_width (BwPageView *self)
{
  return round (paper_of (self).width * self->scale);
}

static double
page_height (BwPageView *self)
{
  return round (paper_of (self).height * self->scale);
}

/* From the beginning of one page to that of the next. */
static double
step_of (BwPageView *self)
{
  return page_height (self) + caption_of (self) + GAP;
}

static double
scale_for (BwPageView *self, double width, double height)
{
  BwPaper paper = paper_of (self);
  double wide = MAX (width - 2 * GAP, 16) / paper.width;
  double whole = MAX (height - 2 * GAP, 16) / paper.height;
  if (self->small)
    return MIN (SMALL_WIDTH / paper.width, SMALL_TALLEST / paper.height);
  if (self->zoom > 0)
    return self->zoom * PIXELS_PER_POINT;
  wide = MIN (wide, WIDTH_MOST * PIXELS_PER_POINT);
  return self->zoom < 0 ? MIN (wide, whole) : wide;
}

static double
value_of (GtkAdjustment *adjustment)
{
  return adjustment ? gtk_adjustment_get_value (adjustment) : 0;
}

static graphene_rect_t
page_box (BwPageView *self, int page)
{
  double width = page_width (self), room = gtk_widget_get_width (GTK_WIDGET (self));
  double x = MAX ((room - width) / 2, GAP) - value_of (self->across);
  double y = GAP + page * step_of (self) - value_of (self->down);
  return GRAPHENE_RECT_INIT ((float)round (x), (float)round (y), (float)width,
                             (float)page_height (self));
}

/* The first and the last page of which something is in view; FALSE where none is. */
static gboolean
pages_in_view (BwPageView *self, int *first, int *last)
{
  double top = value_of (self->down), step = step_of (self);
  int n = count (self);
  *first = CLAMP ((int)floor ((top - GAP) / step), 0, MAX (n - 1, 0));
  *last = CLAMP ((int)floor ((top + gtk_widget_get_height (GTK_WIDGET (self)) - GAP) / step), 0,
                 MAX (n - 1, 0));
  return n > 0;
}

/* --- Drawing beside ----------------------------------------------------------------------------
 */

static void draw_next (BwPageView *self);

static Slot *
slot_of (BwPageView *self, int page)
{
  return &g_array_index (self->slots, Slot, page);
}

static double
wanted_scale (BwPageView *self)
{
  return self->scale * gtk_widget_get_scale_factor (GTK_WIDGET (self));
}

static gboolean
is_fresh (BwPageView *self, int page)
{
  double off = fabs (slot_of (self, page)->scale - wanted_scale (self));
  return slot_of (self, page)->scale > 0 && off * paper_of (self).width < NEAR_ENOUGH;
}

static void
clear_slot (gpointer slot)
{
  g_clear_object (&((Slot *)slot)->picture);
}

/* Lets go of what is farthest from the eye. */
static void
keep_within_bounds (BwPageView *self)
{
  double bytes = 4 * page_width (self) * page_height (self);
  int reach = (int)(KEPT_BYTES / MAX (bytes, 1) / 2), first, last;
  if (!pages_in_view (self, &first, &last))
    return;
  for (int page = 0; page < count (self); page++)
    if (page < first - reach || page > last + reach)
      clear_slot (slot_of (self, page));
}

static void
stop (BwPageView *self)
{
  if (self->drawing)
    g_cancellable_cancel (self->drawing);
  g_clear_object (&self->drawing);
}

/* Where it was stopped there may be no view any more. */
static void
drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  BwPageView *self = data;
  g_autoptr (GError) error = NULL;
  GdkTexture *picture = bw_page_set_finish_picture (result, &error);
  if (!picture)
    return;
  const int *page = g_object_get_data (G_OBJECT (self->drawing), "page");
  const double *scale = g_object_get_data (G_OBJECT (self->drawing), "scale");
  Slot *slot = slot_of (self, *page);
  g_clear_object (&slot->picture);
  *slot = (Slot){ picture, *scale };
  g_clear_object (&self->drawing);
  keep_within_bounds (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  draw_next (self);
}

static void
draw_page (BwPageView *self, int page)
{
  double scale = wanted_scale (self);
  self->drawing = g_cancellable_new ();
  g_object_set_data_full (G_OBJECT (self->drawing), "page", g_memdup2 (&page, sizeof page), g_free);
  g_object_set_data_full (G_OBJECT (self->drawing), "scale", g_memdup2 (&scale, sizeof scale),
                          g_free);
  bw_page_set_ask_picture (self->set, page, scale, self->drawing, drawn, self);
}

/* What is in view from the top, then the page that comes next. */
static void
draw_next (BwPageView *self)
{
  int first, last;
  if (self->drawing || !gtk_widget_get_mapped (GTK_WIDGET (self))
      || !pages_in_view (self, &first, &last))
    return;
  for (int page = first; page <= MIN (last + 1, count (self) - 1); page++)
    if (!is_fresh (self, page)) {
      draw_page (self, page);
      return;
    }
}

gboolean
bw_page_view_is_drawn (BwPageView *self)
{
  g_return_val_if_fail (BW_IS_PAGE_VIEW (self), FALSE);
  int first, last;
  if (!pages_in_view (self, &first, &last))
    return FALSE;
  for (int page = first; page <= last; page++)
    if (!is_fresh (self, page))
      return FALSE;
  return TRUE;
}

/* --- Where one is ------------------------------------------------------------------------------
 */

static void
tell_page (BwPageView *self)
{
  g_autofree char *words = g_strdup_printf (_ ("Page %d of %d"), self->page + 1, count (self));
  if (!self->small)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                    -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PAGE]);
}

/* The page that has the middle of the view is the one that is read. While sizes are given nobody
 * may be told, for who hears it may want another size. */
static void
scrolled (BwPageView *self)
{
  if (self->settling)
    return;
  double middle = value_of (self->down) + gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  int page = CLAMP ((int)floor ((middle - GAP) / step_of (self)), 0, MAX (count (self) - 1, 0));
  gtk_widget_queue_draw (GTK_WIDGET (self));
  draw_next (self);
  if (self->small || page == self->page)
    return;
  self->page = page;
  tell_page (self);
}

static void
set_value (GtkAdjustment *adjustment, double value)
{
  if (adjustment)
    gtk_adjustment_set_value (adjustment, value);
}

/* Small pages are scrolled no more than it takes to see the one that is read. */
static void
show_small (BwPageView *self, int page)
{
  double top = page * step_of (self), bottom = top + step_of (self) + GAP;
  double now = value_of (self->down), room = gtk_widget_get_height (GTK_WIDGET (self));
  if (top < now)
    set_value (self->down, top);
  else if (bottom > now + room)
    set_value (self->down, bottom - room);
}

void
bw_page_view_go (BwPageView *self, int page)
{
  g_return_if_fail (BW_IS_PAGE_VIEW (self));
  page = CLAMP (page, 0, MAX (count (self) - 1, 0));
  if (self->small)
    show_small (self, page);
  else
    set_value (self->down, page * step_of (self));
  if (page == self->page)
    return;
  self->page = page;
  tell_page (self);
}

int
bw_page_view_get_page (BwPageView *self)
{
  g_return_val_if_fail (BW_IS_PAGE_VIEW (self), 0);
  return self->page;
}

void
bw_page_view_read_on (BwPageView *self, int forward)
{
  g_return_if_fail (BW_IS_PAGE_VIEW (self));
  double step = step_of (self), now = value_of (self->down);
  double room = gtk_widget_get_height (GTK_WIDGET (self)), on = room * READ_ON;
  if (forward > 0) {
    double next = (floor (now / step + 1e-6) + 1) * step;
    /* Where nothing of this page is left below, on to the next one. */
    set_value (self->down, next - GAP - now <= room ? next : MIN (now + on, next));
  } else {
    double begin = (ceil (now / step - 1e-6) - 1) * step;
    double foot = MAX (begin, begin + step - room);
    set_value (self->down, now - begin > step - 1 ? foot : MAX (now - on, begin));
  }
}

/* --- Size --------------------------------------------------------------------------------------
 */

double
bw_page_view_get_size (BwPageView *self)
{
  g_return_val_if_fail (BW_IS_PAGE_VIEW (self), 1);
  return self->scale / PIXELS_PER_POINT;
}

void
bw_page_view_set_zoom (BwPageView *self, double zoom)
{
  g_return_if_fail (BW_IS_PAGE_VIEW (self));
  if (zoom == self->zoom) /* NOLINT: one of a few given values */
    return;
  self->zoom = MIN (zoom, BW_ZOOM_MOST);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_ZOOM]);
}

/* What a scrolled window goes by to know whether it scrolls from side to side. */
static void
bw_page_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                      int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwPageView *self = BW_PAGE_VIEW (widget);
  *minimum = LEAST;
  if (orientation == GTK_ORIENTATION_HORIZONTAL && self->small)
    *minimum = SMALL_WIDTH + 2 * GAP;
  else if (orientation == GTK_ORIENTATION_HORIZONTAL && self->zoom > 0)
    *minimum = (int)ceil (paper_of (self).width * self->zoom * PIXELS_PER_POINT) + 2 * GAP;
  *natural = *minimum;
}

static gboolean
settled (gpointer data)
{
  BwPageView *self = data;
  self->settling = 0;
  scrolled (self);
  return G_SOURCE_REMOVE;
}

/* The line at the top of the view stays there, and the middle from side to side. */
static void
bw_page_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwPageView *self = BW_PAGE_VIEW (widget);
  double place = value_of (self->down) / MAX (step_of (self), 1);
  double beside = self->across ? (value_of (self->across) + width / 2.0)
                                     / MAX (gtk_adjustment_get_upper (self->across), 1)
                               : 0.5;
  self->scale = scale_for (self, width, height);
  if (!self->settling)
    self->settling = g_idle_add_full (G_PRIORITY_HIGH_IDLE, settled, self, NULL);
  double all = count (self) * step_of (self) + GAP, wide = page_width (self) + 2 * GAP;
  if (self->down)
    gtk_adjustment_configure (self->down, place * step_of (self), 0, MAX (all, height), LINE,
                              height * READ_ON, height);
  if (self->across)
    gtk_adjustment_configure (self->across, beside * MAX (wide, width) - width / 2.0, 0,
                              MAX (wide, width), LINE, width * READ_ON, width);
}

/* --- Painting ----------------------------------------------------------------------------------
 */

static void
paint_frame (BwPageView *self, GtkSnapshot *snapshot, const graphene_rect_t *box, gboolean marked)
{
  BwPalette palette = bw_palette_get (GTK_WIDGET (self));
  GdkRGBA line = marked ? palette.accent : palette.hair;
  float thick = marked ? 3 : 1;
  GskRoundedRect outline;
  graphene_rect_t outside = *box;
  graphene_rect_inset (&outside, -thick, -thick);
  gsk_rounded_rect_init_from_rect (&outline, &outside, 1);
  gtk_snapshot_append_border (snapshot, &outline, (float[4]){ thick, thick, thick, thick },
                              (GdkRGBA[4]){ line, line, line, line });
}

static void
paint_number (BwPageView *self, GtkSnapshot *snapshot, int page, const graphene_rect_t *box)
{
  const GdkRGBA ink = bw_palette_get (GTK_WIDGET (self)).ink;
  int width;
  g_autofree char *number = g_strdup_printf ("%d", page + 1);
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), number, 1, FALSE);
  pango_layout_get_pixel_size (layout, &width, NULL);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (
      snapshot, &GRAPHENE_POINT_INIT (box->origin.x + (box->size.width - (float)width) / 2,
                                      box->origin.y + box->size.height + 3));
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

static void
paint_page (BwPageView *self, GtkSnapshot *snapshot, int page)
{
  const GdkRGBA white = bw_palette_tint (BW_TINT_SHEET, FALSE);
  graphene_rect_t box = page_box (self, page);
  const Slot *slot = slot_of (self, page);
  paint_frame (self, snapshot, &box, self->small && page == self->page);
  if (slot->picture)
    gtk_snapshot_append_texture (snapshot, slot->picture, &box);
  else
    gtk_snapshot_append_color (snapshot, &white, &box);
  if (self->small)
    paint_number (self, snapshot, page, &box);
}

static void
bw_page_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwPageView *self = BW_PAGE_VIEW (widget);
  int first, last;
  if (!pages_in_view (self, &first, &last))
    return;
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                                         (float)gtk_widget_get_height (widget)));
  for (int page = first; page <= last; page++)
    paint_page (self, snapshot, page);
  gtk_snapshot_pop (snapshot);
}

/* --- Hands -------------------------------------------------------------------------------------
 */

static void
clicked (GtkGestureClick *click, int n, double x, double y, BwPageView *self)
{
  int page = (int)floor ((value_of (self->down) + y - GAP) / step_of (self));
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->small && page >= 0 && page < count (self))
    g_signal_emit (self, signals[PICKED], 0, page);
}

static gboolean
arrow_pressed (GtkWidget *widget, GVariant *by, gpointer data)
{
  int across, down;
  g_variant_get (by, "(ii)", &across, &down);
  BwPageView *self = BW_PAGE_VIEW (widget);
  set_value (self->across, value_of (self->across) + across * LINE);
  set_value (self->down, value_of (self->down) + down * LINE);
  return TRUE;
}

static void
take_adjustment (BwPageView *self, GtkAdjustment **at, GtkAdjustment *adjustment)
{
  if (*at)
    g_signal_handlers_disconnect_by_data (*at, self);
  if (g_set_object (at, adjustment) && adjustment)
    g_signal_connect_swapped (adjustment, "value-changed", G_CALLBACK (scrolled), self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

/* --- Pages -------------------------------------------------------------------------------------
 */

static gboolean
goes_on (BwPageView *self, BwPageSet *set)
{
  return self->set && set && bw_page_set_get_kind (self->set) == bw_page_set_get_kind (set)
         && bw_paper_equal (bw_page_set_get_paper (self->set), bw_page_set_get_paper (set));
}

BwPageSet *
bw_page_view_get_pages (BwPageView *self)
{
  g_return_val_if_fail (BW_IS_PAGE_VIEW (self), NULL);
  return self->set;
}

void
bw_page_view_set_pages (BwPageView *self, BwPageSet *set)
{
  g_return_if_fail (BW_IS_PAGE_VIEW (self));
  gboolean same = goes_on (self, set);
  stop (self);
  if (set)
    bw_page_set_ref (set);
  g_clear_pointer (&self->set, bw_page_set_unref);
  self->set = set;
  if (!same)
    g_array_set_size (self->slots, 0);
  g_array_set_size (self->slots, (guint)count (self));
  for (int page = 0; page < count (self); page++)
    slot_of (self, page)->scale = 0;
  if (!same) {
    set_value (self->down, 0);
    self->page = 0;
  }
  self->page = MIN (self->page, MAX (count (self) - 1, 0));
  gtk_widget_queue_resize (GTK_WIDGET (self));
  tell_page (self);
}

/* --- The widget --------------------------------------------------------------------------------
 */

static void
bw_page_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_page_view_parent_class)->map (widget);
  draw_next (BW_PAGE_VIEW (widget));
}

static void
bw_page_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  BwPageView *self = BW_PAGE_VIEW (object);
  switch (id) {
  case PROP_PAGE:
    g_value_set_int (value, self->page);
    break;
  case PROP_ZOOM:
    g_value_set_double (value, self->zoom);
    break;
  case PROP_SMALL:
    g_value_set_boolean (value, self->small);
    break;
  case PROP_ACROSS:
    g_value_set_object (value, self->across);
    break;
  case PROP_DOWN:
    g_value_set_object (value, self->down);
    break;
  case PROP_ACROSS_POLICY:
    g_value_set_enum (value, self->across_policy);
    break;
  default:
    g_value_set_enum (value, self->down_policy);
  }
}

static void
bw_page_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwPageView *self = BW_PAGE_VIEW (object);
  switch (id) {
  case PROP_PAGE:
    bw_page_view_go (self, g_value_get_int (value));
    break;
  case PROP_ZOOM:
    bw_page_view_set_zoom (self, g_value_get_double (value));
    break;
  case PROP_SMALL:
    self->small = g_value_get_boolean (value);
    break;
  case PROP_ACROSS:
    take_adjustment (self, &self->across, g_value_get_object (value));
    break;
  case PROP_DOWN:
    take_adjustment (self, &self->down, g_value_get_object (value));
    break;
  case PROP_ACROSS_POLICY:
    self->across_policy = g_value_get_enum (value) != 0;
    break;
  default:
    self->down_policy = g_value_get_enum (value) != 0;
  }
}

static void
bw_page_view_dispose (GObject *object)
{
  BwPageView *self = BW_PAGE_VIEW (object);
  stop (self);
  g_clear_handle_id (&self->settling, g_source_remove);
  take_adjustment (self, &self->across, NULL);
  take_adjustment (self, &self->down, NULL);
  g_clear_pointer (&self->set, bw_page_set_unref);
  G_OBJECT_CLASS (bw_page_view_parent_class)->dispose (object);
}

static void
bw_page_view_finalize (GObject *object)
{
  g_array_unref (BW_PAGE_VIEW (object)->slots);
  G_OBJECT_CLASS (bw_page_view_parent_class)->finalize (object);
}

static void
install_properties (GObjectClass *klass)
{
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;
  properties[PROP_PAGE] = g_param_spec_int ("page", NULL, NULL, 0, G_MAXINT, 0, flags);
  properties[PROP_ZOOM]
      = g_param_spec_double ("zoom", NULL, NULL, BW_ZOOM_WHOLE, BW_ZOOM_MOST, 0, flags);
  properties[PROP_SMALL]
      = g_param_spec_boolean ("small", NULL, NULL, FALSE, flags | G_PARAM_CONSTRUCT_ONLY);
  g_object_class_install_properties (klass, N_OWN, properties);
  g_object_class_override_property (klass, PROP_ACROSS, "hadjustment");
  g_object_class_override_property (klass, PROP_DOWN, "vadjustment");
  g_object_class_override_property (klass, PROP_ACROSS_POLICY, "hscroll-policy");
  g_object_class_override_property (klass, PROP_DOWN_POLICY, "vscroll-policy");
}

static void
bw_page_view_class_init (BwPageViewClass *klass)
{
  static const struct {
    guint key;
    int across, down;
  } arrows[] = {
    { GDK_KEY_Up, 0, -1 }, { GDK_KEY_Down, 0, 1 }, { GDK_KEY_Left, -1, 0 }, { GDK_KEY_Right, 1, 0 }
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  object_class->get_property = bw_page_view_get_property;
  object_class->set_property = bw_page_view_set_property;
  object_class->dispose = bw_page_view_dispose;
  object_class->finalize = bw_page_view_finalize;
  widget_class->measure = bw_page_view_measure;
  widget_class->size_allocate = bw_page_view_size_allocate;
  widget_class->snapshot = bw_page_view_snapshot;
  widget_class->map = bw_page_view_map;
  install_properties (object_class);
  signals[PICKED] = g_signal_new ("picked", BW_TYPE_PAGE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  for (gsize i = 0; i < G_N_ELEMENTS (arrows); i++)
    gtk_widget_class_add_binding (widget_class, arrows[i].key, 0, arrow_pressed, "(ii)",
                                  arrows[i].across, arrows[i].down);
  gtk_widget_class_set_css_name (widget_class, "pageview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_page_view_init (BwPageView *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  self->slots = g_array_new (FALSE, TRUE, sizeof (Slot));
  g_array_set_clear_func (self->slots, clear_slot);
  self->scale = PIXELS_PER_POINT;
  g_signal_connect (click, "pressed", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  bw_palette_follow (GTK_WIDGET (self));
}
