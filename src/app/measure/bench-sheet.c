/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entries come and go with the dimensions the stone has; where they stand is the plan's, how the
 * paper under them looks the drawing's. */
#include "config.h"

#include "app/measure/bench-sheet.h"
#include "app/form/field-entry.h"
#include "app/form/measures.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/measure/sheet-drawing.h"
#include "app/measure/sheet-plan.h"
#include "project/place-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

struct _BwBenchSheet {
  BwCard parent_instance;
  BwSheetPlan plan;
  GHashTable *entries; /* pointer of a dimension → its entry, borrowed */
  GtkWidget *last;     /* the entry that was typed in last; borrowed, NULL for none */
  char lit[BW_POINTER_BYTES];
  GtkWidget *head;
  GtkDropDown *way;
  GtkWidget *misfit; /* what the word means, where it is written */
  GtkLabel *above;
  GtkLabel *beside;
  gboolean refused; /* the way just chosen cannot be */
};

G_DEFINE_FINAL_TYPE (BwBenchSheet, bw_bench_sheet, BW_TYPE_CARD)

#define MARGIN 14

/* --- Entries -----------------------------------------------------------------------------------
 */

static const char *
caption_of (const BwSheetNote *note)
{
  static const struct {
    const char *pointer, *caption;
  } captions[] = {
    { "/band/seam_deg", N_ ("join") },
    { "/bail/at_deg", N_ ("bail") },
    { "/stone/length_mm", N_ ("length") },
    { "/stone/shoulder_mm", N_ ("shoulder") },
    { "/stone/natural_angle_deg", N_ ("natural angle") },
    { "/stone/second_girth_mm", N_ ("second girth") },
    { "/stone/second_at_mm", N_ ("at height") },
    { "/band/columns", N_ ("columns") },
    { "/stone/at_mm", N_ ("measured at") },
    { "/band/bottom_mm", N_ ("band from") },
    { "/stone/base_shoulder_mm", N_ ("lower shoulder") },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (captions); i++)
    if (g_str_equal (captions[i].pointer, note->pointer))
      return _ (captions[i].caption);
  return note->kind == BW_NOTE_GIRTH ? _ ("girth") : NULL;
}

/* Beside the stone captions stand above their figures, so that they leave the drawing its room. */
static gboolean
is_captioned_above (const BwSheetNote *note)
{
  return note->kind == BW_NOTE_TALL || note->kind == BW_NOTE_HEIGHT;
}

static void
entry_gone (gpointer self, GObject *entry)
{
  if (((BwBenchSheet *)self)->last == (GtkWidget *)entry)
    ((BwBenchSheet *)self)->last = NULL;
}

static GtkWidget *
make_entry (BwBenchSheet *self, const BwSheetNote *note)
{
  GtkWidget *entry = bw_field_entry_new (note->pointer);
  gtk_widget_insert_before (entry, GTK_WIDGET (self), NULL);
  bw_field_entry_lie (BW_FIELD_ENTRY (entry), caption_of (note), is_captioned_above (note));
  bw_field_entry_bind (BW_FIELD_ENTRY (entry), bw_card_get_draft (BW_CARD (self)));
  g_object_weak_ref (G_OBJECT (entry), entry_gone, self);
  g_hash_table_insert (self->entries, g_strdup (note->pointer), entry);
  return entry;
}

static gboolean
is_listed (const BwSheetPlan *plan, const char *pointer)
{
  for (int i = 0; i < plan->n_notes; i++)
    if (g_str_equal (plan->note[i].pointer, pointer))
      return TRUE;
  return FALSE;
}

static void
drop_entries (BwBenchSheet *self)
{
  GHashTableIter iter;
  gpointer pointer, entry;
  g_hash_table_iter_init (&iter, self->entries);
  while (g_hash_table_iter_next (&iter, &pointer, &entry))
    if (!is_listed (&self->plan, pointer)) {
      g_hash_table_iter_remove (&iter);
      g_object_weak_unref (G_OBJECT (entry), entry_gone, self);
      entry_gone (self, entry);
      gtk_widget_unparent (entry);
    }
}

/* Entries stay where they are as long as they are wanted, so that the one being typed in keeps what
 * is typed; they stand in the order Tab goes through them. */
static void
keep_entries (BwBenchSheet *self)
{
  const BwStoneMeasures *stone = &bw_card_get_design (BW_CARD (self))->stone;
  GtkWidget *before = self->head;
  bw_sheet_plan_list (&self->plan, bw_card_get_design (BW_CARD (self)),
                      bw_project_stone (bw_card_get_project (BW_CARD (self))));
  drop_entries (self);
  for (int i = 0; i < self->plan.n_notes; i++) {
    const BwSheetNote *note = &self->plan.note[i];
    GtkWidget *entry = g_hash_table_lookup (self->entries, note->pointer);
    if (!entry)
      entry = make_entry (self, note);
    if (gtk_widget_get_prev_sibling (entry) != before)
      gtk_widget_insert_after (entry, GTK_WIDGET (self), before);
    before = entry;
    if (!g_str_has_prefix (note->pointer, "/stone/values_mm/"))
      continue;
    g_autofree char *title = bw_value_title (stone, note->index);
    bw_field_entry_set_title (BW_FIELD_ENTRY (entry), title);
  }
}

/* --- What is told under the views ---------------------------------------------------------------
 */

static int
count_made_up (BwProject *project)
{
  int n = 0;
  for (guint64 left = bw_project_get_examples (project).values; left; left &= left - 1)
    n++;
  return n;
}

static char *
made_up_words (BwProject *project)
{
  const BwStoneMeasures *stone = &bw_project_get_design (project)->stone;
  int n = count_made_up (project);
  if (stone->measured != BW_MEASURED_FACE_WIDTHS)
    return g_strdup (_ ("Example stone – type your own"));
  return g_strdup_printf (
      ngettext ("%d width is still to be measured", "%d widths are still to be measured", n), n);
}

static char *
words_above (BwBenchSheet *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwStone *stone = bw_project_stone (project);
  if (self->refused)
    return g_strdup (_ ("An odd number of faces has no opposite faces to measure across."));
  if (bw_project_stone_is_example (project))
    return made_up_words (project);
  g_autofree char *girth = bw_card_length (stone->girth_mm, 1);
  if (bw_project_get_design (project)->stone.measured != BW_MEASURED_FACE_WIDTHS)
    return g_strdup_printf (_ ("Seen from the tip · girth %s"), girth);
  g_autofree char *error = bw_card_length (stone->closing_error_mm, 2);
  return g_strdup_printf (_ ("Seen from the tip · girth %s · misfit %s"), girth, error);
}

/* An angle is what is typed; a place on the stone is what is seen. */
static char *
words_of_places (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  g_autofree char *join = bw_place_words (project, design->band.seam_deg);
  if (design->bail.style == BW_BAIL_NONE)
    return g_strdup_printf (_ ("Join: %s"), join);
  g_autofree char *bail = bw_place_words (project, design->bail.at_deg);
  if (g_str_equal (join, bail))
    return g_strdup_printf (_ ("Join and bail: %s"), join);
  return g_strdup_printf (_ ("Join: %s · bail: %s"), join, bail);
}

/* What the marks on the drawing warn of is told to who points at one, and to who sees none. */
static char *
warning_words (BwBenchSheet *self)
{
  return bw_project_splay_words (bw_card_get_project (BW_CARD (self)),
                                 bw_settings_get_unit (bw_settings_get ()));
}

static void
show_words (BwBenchSheet *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  gboolean example = bw_project_stone_is_example (project);
  g_autofree char *seen = words_above (self);
  g_autofree char *places = words_of_places (project);
  g_autofree char *above = g_strdup_printf ("%s\n%s", seen, places);
  g_autofree char *width
      = bw_card_length (bw_design_span (bw_project_get_design (project)).width_mm, 1);
  g_autofree char *beside = g_strdup_printf (_ ("Seen from the side · %.1f g · band %s wide"),
                                             bw_project_stone (project)->mass_g, width);
  gboolean faces = bw_project_get_design (project)->stone.measured == BW_MEASURED_FACE_WIDTHS;
  gtk_widget_set_visible (self->misfit, faces && !example && !self->refused);
  const char *const classes[] = { self->refused ? "reason" : example ? "blank" : "small", NULL };
  gtk_widget_set_css_classes (GTK_WIDGET (self->above), (const char **)classes);
  bw_label_set_words (self->above, above);
  bw_label_set_words (self->beside, beside);
  g_autofree char *warning = warning_words (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  warning ? warning : "", -1);
}

static void
bw_bench_sheet_refresh (BwCard *card)
{
  BwBenchSheet *self = BW_BENCH_SHEET (card);
  gtk_drop_down_set_selected (self->way, bw_card_get_design (card)->stone.measured);
  keep_entries (self);
  show_words (self);
  self->refused = FALSE;
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
way_chosen (BwBenchSheet *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwDesign design = *bw_card_get_design (BW_CARD (self));
  BwMeasured way = (BwMeasured)gtk_drop_down_get_selected (self->way);
  if (way == design.stone.measured)
    return;
  if (bw_measures_set_way (&design.stone, way)) {
    bw_card_apply (BW_CARD (self), _ ("Way of measuring"), &design);
    return;
  }
  self->refused = TRUE;
  bw_card_refresh (BW_CARD (self));
}

/* --- Place -------------------------------------------------------------------------------------
 */

static void
ask_for_room (BwBenchSheet *self)
{
  int head;
  g_autoptr (PangoLayout) layout = bw_palette_text (GTK_WIDGET (self), "0", 1, FALSE);
  int line;
  pango_layout_get_pixel_size (layout, NULL, &line);
  gtk_widget_measure (self->head, GTK_ORIENTATION_VERTICAL, -1, NULL, &head, NULL, NULL);
  self->plan.line = line;
  self->plan.head = head + 6;
  for (int i = 0; i < self->plan.n_notes; i++) {
    GtkWidget *entry = g_hash_table_lookup (self->entries, self->plan.note[i].pointer);
    int w, h;
    gtk_widget_measure (entry, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &w, NULL, NULL);
    gtk_widget_measure (entry, GTK_ORIENTATION_VERTICAL, w, NULL, &h, NULL, NULL);
    self->plan.note[i].w = w;
    self->plan.note[i].h = h;
    self->plan.note[i].mid = bw_field_entry_figure_middle (BW_FIELD_ENTRY (entry), h);
  }
}

static double
height_of_words (GtkLabel *label, double width)
{
  int least, height;
  gtk_widget_measure (GTK_WIDGET (label), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (label), GTK_ORIENTATION_VERTICAL, MAX ((int)width, least), NULL,
                      &height, NULL, NULL);
  return height;
}

/* How high the words under the views are is known once their widths are. */
static void
plan_for (BwBenchSheet *self, int width)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  ask_for_room (self);
  self->plan.width = width;
  self->plan.foot = 0;
  bw_sheet_plan_place (&self->plan, design, stone);
  self->plan.foot = MAX (height_of_words (self->above, self->plan.section.w),
                         height_of_words (self->beside, self->plan.profile.w));
  bw_sheet_plan_place (&self->plan, design, stone);
}

static int
least_width (BwBenchSheet *self)
{
  int head;
  gtk_widget_measure (self->head, GTK_ORIENTATION_HORIZONTAL, -1, &head, NULL, NULL, NULL);
  ask_for_room (self);
  return MAX (head + 2 * MARGIN, (int)ceil (bw_sheet_plan_least_width (&self->plan)));
}

static void
bw_bench_sheet_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwBenchSheet *self = BW_BENCH_SHEET (widget);
  *minimum = *natural = 0;
  if (!bw_card_get_project (BW_CARD (self)))
    return;
  int least = least_width (self);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = *natural = least;
    return;
  }
  plan_for (self, MAX (for_size, least));
  *minimum = *natural = (int)ceil (self->plan.height);
}

static void
allocate (GtkWidget *child, double x, double y, double width, double height)
{
  GtkAllocation place
      = { (int)lround (x), (int)lround (y), (int)lround (width), (int)lround (height) };
  gtk_widget_size_allocate (child, &place, -1);
}

static void
allocate_words (GtkWidget *label, const BwSheetBox *view, double line)
{
  int least, height;
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  double width = MAX (view->w, least);
  gtk_widget_measure (label, GTK_ORIENTATION_VERTICAL, (int)width, NULL, &height, NULL, NULL);
  allocate (label, view->x, view->y + view->h + 4, width, MAX (height, line));
}

static void
bw_bench_sheet_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwBenchSheet *self = BW_BENCH_SHEET (widget);
  if (!bw_card_get_project (BW_CARD (self)))
    return;
  plan_for (self, width);
  allocate (self->head, MARGIN, MARGIN, self->plan.section.w, self->plan.head - 6);
  allocate_words (GTK_WIDGET (self->above), &self->plan.section, self->plan.line);
  allocate_words (GTK_WIDGET (self->beside), &self->plan.profile, self->plan.line);
  for (int i = 0; i < self->plan.n_notes; i++) {
    const BwSheetNote *note = &self->plan.note[i];
    allocate (g_hash_table_lookup (self->entries, note->pointer), note->x, note->y, note->w,
              note->h);
  }
}

static GtkSizeRequestMode
bw_bench_sheet_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_bench_sheet_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwBenchSheet *self = BW_BENCH_SHEET (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  if (!bw_card_get_project (BW_CARD (self)))
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  bw_sheet_draw (widget, cr, &self->plan, bw_card_get_project (BW_CARD (self)), self->lit);
  cairo_destroy (cr);
  GTK_WIDGET_CLASS (bw_bench_sheet_parent_class)->snapshot (widget, snapshot);
}

/* --- Keys and pointer ---------------------------------------------------------------------------
 */

static GtkWidget *
child_with_focus (BwBenchSheet *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self));
  return child ? child : self->last;
}

/* Tab goes round the stone first, then up along it, and not line by line as entries happen to
 * stand.
 */
static gboolean
bw_bench_sheet_focus (GtkWidget *widget, GtkDirectionType direction)
{
  BwBenchSheet *self = BW_BENCH_SHEET (widget);
  gboolean forward = direction == GTK_DIR_TAB_FORWARD;
  if (!forward && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (bw_bench_sheet_parent_class)->focus (widget, direction);
  gboolean left = gtk_widget_has_focus (widget);
  GtkWidget *child = left || gtk_widget_get_focus_child (widget) ? child_with_focus (self) : NULL;
  if (child && !left && gtk_widget_child_focus (child, direction))
    return TRUE;
  if (child)
    child = forward ? gtk_widget_get_next_sibling (child) : gtk_widget_get_prev_sibling (child);
  else
    child = forward ? gtk_widget_get_first_child (widget) : gtk_widget_get_last_child (widget);
  for (; child;
       child = forward ? gtk_widget_get_next_sibling (child) : gtk_widget_get_prev_sibling (child))
    if (gtk_widget_child_focus (child, direction))
      return TRUE;
  return FALSE;
}

/* A second Escape, or one where nothing is typed, leaves the entry for the sheet; Tab goes on from
 * there. */
static gboolean
key_pressed (BwBenchSheet *self, guint key, guint code, GdkModifierType modifiers)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self));
  if (key != GDK_KEY_Escape || !child)
    return FALSE;
  self->last = BW_IS_FIELD_ENTRY (child) ? child : NULL;
  return gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* The line of the dimension that is pointed at or typed in is drawn strong. */
static void
light (BwBenchSheet *self, GtkWidget *entry)
{
  const char *pointer
      = BW_IS_FIELD_ENTRY (entry) ? bw_field_entry_get_pointer (BW_FIELD_ENTRY (entry)) : "";
  if (g_str_equal (self->lit, pointer))
    return;
  g_strlcpy (self->lit, pointer, sizeof self->lit);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
focus_moved (BwBenchSheet *self)
{
  light (self, gtk_widget_get_focus_child (GTK_WIDGET (self)));
}

static void
moved (BwBenchSheet *self, double x, double y)
{
  GtkWidget *under = gtk_widget_pick (GTK_WIDGET (self), x, y, GTK_PICK_DEFAULT);
  GtkWidget *entry = under ? gtk_widget_get_ancestor (under, BW_TYPE_FIELD_ENTRY) : NULL;
  light (self, entry ? entry : gtk_widget_get_focus_child (GTK_WIDGET (self)));
  gboolean warns
      = !entry && bw_sheet_warns_at (&self->plan, bw_card_get_project (BW_CARD (self)), x, y);
  g_autofree char *words = warns ? warning_words (self) : NULL;
  if (g_strcmp0 (words, gtk_widget_get_tooltip_text (GTK_WIDGET (self))) != 0)
    gtk_widget_set_tooltip_text (GTK_WIDGET (self), words);
}

static void
bw_bench_sheet_dispose (GObject *object)
{
  BwBenchSheet *self = BW_BENCH_SHEET (object);
  self->plan.n_notes = 0;
  drop_entries (self);
  G_OBJECT_CLASS (bw_bench_sheet_parent_class)->dispose (object);
}

static void
bw_bench_sheet_finalize (GObject *object)
{
  g_hash_table_unref (BW_BENCH_SHEET (object)->entries);
  G_OBJECT_CLASS (bw_bench_sheet_parent_class)->finalize (object);
}

static void
bw_bench_sheet_class_init (BwBenchSheetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_bench_sheet_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_bench_sheet_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_bench_sheet_refresh;
  widget_class->measure = bw_bench_sheet_measure;
  widget_class->size_allocate = bw_bench_sheet_size_allocate;
  widget_class->get_request_mode = bw_bench_sheet_get_request_mode;
  widget_class->snapshot = bw_bench_sheet_snapshot;
  widget_class->focus = bw_bench_sheet_focus;
  gtk_widget_class_set_css_name (widget_class, "benchsheet");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bench-sheet.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBenchSheet, head);
  gtk_widget_class_bind_template_child (widget_class, BwBenchSheet, way);
  gtk_widget_class_bind_template_child (widget_class, BwBenchSheet, misfit);
  gtk_widget_class_bind_template_child (widget_class, BwBenchSheet, above);
  gtk_widget_class_bind_template_child (widget_class, BwBenchSheet, beside);
  gtk_widget_class_bind_template_callback (widget_class, way_chosen);
}

static void
bw_bench_sheet_init (BwBenchSheet *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  self->entries = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (GTK_WIDGET (self), NULL);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  bw_palette_follow (GTK_WIDGET (self));
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (moved), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (focus_moved), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  g_signal_connect (self, "notify::focus-child", G_CALLBACK (focus_moved), NULL);
}
