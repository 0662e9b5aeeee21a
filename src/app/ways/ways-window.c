/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search brings more ways than are shown: filters and weights choose among them at once,
 * without another search. How the piece should hang is part of the question itself. */
#include "config.h"

#include "app/ways/ways-window.h"

#include "app/keep/workbook.h"
#include "app/kit/long-list.h"
#include "app/kit/part-names.h"
#include "app/ask/tell.h"
#include "app/kit/words.h"
#include "app/kit/wrap-layout.h"
#include "app/ways/way-card.h"
#include "app/ways/way-pick.h"
#include "app/ways/way-stash.h"
#include "app/ways/way-take.h"
#include "app/ways/way-finder.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

#define SHOWN_MOST 12
#define BEAT_MS 100
#define WEIGHT_USUAL 50 /* of 100 */

struct _BwWaysWindow {
  GtkWindow parent_instance;
  BwDraft *draft;
  BwProject *project; /* the one searched for */
  BwWayFinder *finder;
  GBytes *text;       /* of the project as it was searched for */
  GPtrArray *looks;   /* of BwWayLook, by the place of the way; NULL: not known yet */
  GCancellable *stop; /* of the looks that are asked for */
  double weight[BW_N_MATTERS];
  gboolean stale;   /* the project is another than the one searched for */
  gboolean filling; /* the lists of the filters change, not the maker's mind */
  guint beat;
  GtkWidget *filters, *work, *again, *matters;
  GtkDropDown *bead, *columns, *odds, *want;
  GtkCheckButton *only; /* what the stash has the beads for */
  GtkGrid *weights;
  GtkProgressBar *progress;
  GtkLabel *words;
  GtkFlowBox *cards;
};

G_DEFINE_FINAL_TYPE (BwWaysWindow, bw_ways_window, GTK_TYPE_WINDOW)

static const double odds[] = { 0, 0.5, 0.6, 0.7, 0.8, 0.9 };

static const char *const wants[]
    = { N_ ("any way"), N_ ("level"), N_ ("tip down"), N_ ("tip up") }; /* then as BwWant */

static const char *const matters[BW_N_MATTERS]
    = { N_ ("Right the first time"), N_ ("Hangs as wished"), N_ ("Covers as much as now"),
        N_ ("Little work"), N_ ("Little cost") };

/* --- What is asked for -------------------------------------------------------------------------
 */

static gboolean
get_want (BwWaysWindow *self, BwWant *want)
{
  guint selected = gtk_drop_down_get_selected (self->want);
  *want = selected >= 1 && selected < G_N_ELEMENTS (wants) ? (BwWant)(selected - 1) : BW_WANT_LEVEL;
  return selected >= 1 && selected < G_N_ELEMENTS (wants);
}

/* The words chosen; NULL for the first, which stands for any. Borrowed. */
static const char *
get_words (GtkDropDown *drop_down)
{
  GtkStringObject *item = gtk_drop_down_get_selected_item (drop_down);
  return gtk_drop_down_get_selected (drop_down) > 0 && item ? gtk_string_object_get_string (item)
                                                            : NULL;
}

/* What is worked out counts; before that, what can be told from the colours' shares. */
static gboolean
is_in_stash (const BwWay *way, guint at, gpointer data)
{
  BwWaysWindow *self = data;
  const BwWayLook *look = g_ptr_array_index (self->looks, at);
  return look ? look->covered : bw_way_in_stash (self->project, way);
}

static BwWayFilter
get_filter (BwWaysWindow *self)
{
  const char *columns = get_words (self->columns);
  guint least = gtk_drop_down_get_selected (self->odds);
  BwWayFilter filter = { .bead = get_words (self->bead),
                         .columns = columns ? atoi (columns) : 0,
                         .chance = least < G_N_ELEMENTS (odds) ? odds[least] : 0 };
  filter.has_want = get_want (self, &filter.want);
  if (gtk_check_button_get_active (self->only)) {
    filter.allowed = is_in_stash;
    filter.data = self;
  }
  return filter;
}

/* --- Cards -------------------------------------------------------------------------------------
 */

typedef struct {
  GWeakRef window; /* a window that is closed must go before the one it belongs to */
  guint at;
  GCancellable *stop; /* owned; another than the window's: the answer is to an old question */
} Asked;

static BwWayCard *
card_of (BwWaysWindow *self, guint at)
{
  GtkFlowBoxChild *child;
  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->cards, i)); i++)
    if (GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (child), "at")) == at)
      return BW_WAY_CARD (child);
  return NULL;
}

static void show_ways (BwWaysWindow *self);

static void
look_known (GObject *source, GAsyncResult *result, gpointer data)
{
  Asked *asked = data;
  g_autoptr (BwWaysWindow) self = g_weak_ref_get (&asked->window);
  g_autoptr (BwWayLook) look = bw_way_look_finish (result, NULL);
  if (self && look && self->stop == asked->stop) {
    BwWayCard *card = card_of (self, asked->at);
    if (card)
      bw_way_card_show (card, look);
    gboolean refused = gtk_check_button_get_active (self->only) && !look->covered;
    g_ptr_array_index (self->looks, asked->at) = g_steal_pointer (&look);
    if (refused)
      show_ways (self);
  }
  g_object_unref (asked->stop);
  g_weak_ref_clear (&asked->window);
  g_free (asked);
}

static void
ask_for_look (BwWaysWindow *self, guint at)
{
  Asked *asked = g_new0 (Asked, 1);
  g_weak_ref_init (&asked->window, self);
  asked->at = at;
  asked->stop = g_object_ref (self->stop);
  const BwWay *way = &g_array_index (bw_way_finder_get_ways (self->finder), BwWay, at);
  bw_way_look_ask (self->text, way, self->stop, look_known, asked);
}

static void
add_card (BwWaysWindow *self, guint at)
{
  const BwWay *way = &g_array_index (bw_way_finder_get_ways (self->finder), BwWay, at);
  GtkWidget *card = bw_way_card_new (way);
  const BwWayLook *look = g_ptr_array_index (self->looks, at);
  g_object_set_data (G_OBJECT (card), "at", GUINT_TO_POINTER (at));
  if (look)
    bw_way_card_show (BW_WAY_CARD (card), look);
  gtk_flow_box_append (self->cards, card);
}

static void
clear_cards (BwWaysWindow *self)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->cards))))
    gtk_flow_box_remove (self->cards, child);
}

/* Owned. */
static char *
count_words (BwWaysWindow *self, guint shown)
{
  guint all = bw_way_finder_get_ways (self->finder)->len;
  if (self->stale)
    return g_strdup (_ ("The project is another now: search again."));
  if (all == 0 && bw_way_finder_is_busy (self->finder))
    return g_strdup (_ ("Looking for ways…"));
  if (all == 0)
    return g_strdup (_ ("None was found: no band of these beads is snug on this stone and hangs on "
                        "this cord."));
  if (shown == 0)
    return g_strdup_printf (ngettext ("The %u way found is none of those you ask for.",
                                      "The %u ways found are none of those you ask for.", all),
                            all);
  return g_strdup_printf (_ ("%u of %u ways found, the best first by what matters to you. A click "
                             "makes one the project; undo takes it back."),
                          shown, all);
}

/* Looks are asked for what is shown and not yet known; the ones before are no longer waited for. */
static void
show_ways (BwWaysWindow *self)
{
  BwWayFilter filter = get_filter (self);
  g_autoptr (GArray) picked
      = bw_way_pick (bw_way_finder_get_ways (self->finder), &filter, self->weight, SHOWN_MOST);
  g_cancellable_cancel (self->stop);
  g_clear_object (&self->stop);
  self->stop = g_cancellable_new ();
  clear_cards (self);
  for (guint i = 0; i < picked->len; i++) {
    guint at = g_array_index (picked, guint, i);
    add_card (self, at);
    if (!g_ptr_array_index (self->looks, at))
      ask_for_look (self, at);
  }
  g_autofree char *words = count_words (self, picked->len);
  bw_label_set_words (self->words, words);
}

/* --- Filters -----------------------------------------------------------------------------------
 */

static int
compare_names (gconstpointer a, gconstpointer b)
{
  const char *one = *(const char *const *)a, *other = *(const char *const *)b;
  int by_number = atoi (one) - atoi (other);
  return by_number ? by_number : g_utf8_collate (one, other);
}

/* The list keeps what was chosen where that is there still. Takes names. */
static void
fill_list (BwWaysWindow *self, GtkDropDown *drop_down, const char *any, GPtrArray *names)
{
  g_autofree char *kept = g_strdup (get_words (drop_down));
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  guint selected = 0;
  gtk_string_list_append (list, any);
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++) {
    gtk_string_list_append (list, g_ptr_array_index (names, i));
    if (g_strcmp0 (kept, g_ptr_array_index (names, i)) == 0)
      selected = i + 1;
  }
  g_ptr_array_unref (names);
  self->filling = TRUE;
  bw_long_list_fill (drop_down, list);
  gtk_drop_down_set_selected (drop_down, selected);
  self->filling = FALSE;
}

static void
add_new (GPtrArray *names, char *name)
{
  if (g_ptr_array_find_with_equal_func (names, name, g_str_equal, NULL))
    g_free (name);
  else
    g_ptr_array_add (names, name);
}

static void
fill_filters (BwWaysWindow *self)
{
  const GArray *ways = bw_way_finder_get_ways (self->finder);
  GPtrArray *beads = g_ptr_array_new_with_free_func (g_free);
  GPtrArray *columns = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < ways->len; i++) {
    const BwDesign *design = &g_array_index (ways, BwWay, i).design;
    if (*design->bead.name)
      add_new (beads, g_strdup (design->bead.name));
    add_new (columns, g_strdup_printf ("%d", design->band.columns));
  }
  fill_list (self, self->bead, _ ("any"), beads);
  fill_list (self, self->columns, _ ("any number"), columns);
}

static void
filter_chosen (BwWaysWindow *self)
{
  if (self->finder && !self->filling && self->text)
    show_ways (self);
}

static void
weight_moved (GtkRange *range, gpointer data)
{
  BwWaysWindow *self
      = BW_WAYS_WINDOW (gtk_widget_get_ancestor (GTK_WIDGET (range), BW_TYPE_WAYS_WINDOW));
  *(double *)data = gtk_range_get_value (range) / 100;
  filter_chosen (self);
}

static void
add_weight (BwWaysWindow *self, int i)
{
  GtkWidget *name = gtk_label_new (_ (matters[i]));
  GtkWidget *scale = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, 0, 100, 10);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_widget_set_size_request (scale, 160, -1);
  gtk_range_set_value (GTK_RANGE (scale), WEIGHT_USUAL);
  self->weight[i] = WEIGHT_USUAL / 100.0;
  gtk_grid_attach (self->weights, name, 0, i, 1, 1);
  gtk_grid_attach (self->weights, scale, 1, i, 1, 1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (scale), GTK_ACCESSIBLE_RELATION_LABELLED_BY, name,
                                  NULL, -1);
  g_signal_connect (scale, "value-changed", G_CALLBACK (weight_moved), &self->weight[i]);
}

static void
fill_fixed_lists (BwWaysWindow *self)
{
  g_autoptr (GtkStringList) chances = gtk_string_list_new (NULL);
  g_autoptr (GtkStringList) stances = gtk_string_list_new (NULL);
  gtk_string_list_append (chances, _ ("any"));
  for (gsize i = 1; i < G_N_ELEMENTS (odds); i++) {
    g_autofree char *words = g_strdup_printf (_ ("%.0f %% and more"), 100 * odds[i]);
    gtk_string_list_append (chances, words);
  }
  for (gsize i = 0; i < G_N_ELEMENTS (wants); i++)
    gtk_string_list_append (stances, _ (wants[i]));
  gtk_drop_down_set_model (self->odds, G_LIST_MODEL (chances));
  gtk_drop_down_set_model (self->want, G_LIST_MODEL (stances));
}

/* --- The search --------------------------------------------------------------------------------
 */

static gboolean
beat (gpointer data)
{
  BwWaysWindow *self = data;
  gtk_progress_bar_set_fraction (self->progress, bw_way_finder_get_share (self->finder));
  return G_SOURCE_CONTINUE;
}

static void
show_work (BwWaysWindow *self)
{
  gboolean busy = bw_way_finder_is_busy (self->finder);
  if (busy && !self->beat)
    self->beat = g_timeout_add (BEAT_MS, beat, self);
  if (!busy)
    g_clear_handle_id (&self->beat, g_source_remove);
  gtk_widget_set_visible (self->work, busy);
  gtk_widget_set_sensitive (self->again, !busy);
}

static void
search_changed (BwWaysWindow *self)
{
  const GArray *ways = bw_way_finder_get_ways (self->finder);
  g_ptr_array_set_size (self->looks, 0);
  g_ptr_array_set_size (self->looks, (int)ways->len);
  show_work (self);
  fill_filters (self);
  show_ways (self);
}

static void
begin (BwWaysWindow *self)
{
  gsize length;
  BwWant want;
  gboolean wished = get_want (self, &want);
  bw_draft_settle (self->draft);
  char *text = bw_project_to_data (self->project, &length);
  g_clear_pointer (&self->text, g_bytes_unref);
  self->text = g_bytes_new_take (text, length);
  self->stale = FALSE;
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), TRUE);
  bw_way_finder_begin (self->finder, self->project, bw_workbook_get_hands (bw_workbook_get ()),
                       wished ? &want : NULL);
}

static void
stop (BwWaysWindow *self)
{
  bw_way_finder_stop (self->finder);
}

static void
want_chosen (BwWaysWindow *self)
{
  if (self->finder && self->text)
    begin (self);
}

/* Cards carry whole designs: those of another stone must not come back with one. */
static void
project_changed (BwWaysWindow *self, guint what)
{
  if (!(what & (BW_CHANGED_DESIGN | BW_CHANGED_PROGRESS)) || self->stale)
    return;
  self->stale = TRUE;
  stop (self);
  gtk_widget_set_sensitive (GTK_WIDGET (self->cards), FALSE);
  bw_label_set_words (self->words, _ ("The project is another now: search again."));
}

static void
chosen (BwWaysWindow *self, GtkFlowBoxChild *child)
{
  g_autoptr (GError) error = NULL;
  BwWay way = *bw_way_card_get_way (BW_WAY_CARD (child));
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  gboolean taken = bw_way_take (self->draft, &way, &error);
  g_autofree char *sentence
      = taken ? g_strdup (_ ("The stone is set this way now. Undo takes it back."))
              : g_strdup_printf (_ ("This way cannot be taken: %s"), bw_fault_sentence (error));
  gtk_window_close (GTK_WINDOW (self));
  if (parent)
    bw_tell (GTK_WIDGET (parent), taken ? GTK_MESSAGE_INFO : GTK_MESSAGE_WARNING, sentence);
}

/* --- The window --------------------------------------------------------------------------------
 */

static BwWaysWindow *
find_of (GtkWindow *parent)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();
  for (GList *item = all; item; item = item->next)
    if (BW_IS_WAYS_WINDOW (item->data)
        && gtk_window_get_transient_for (GTK_WINDOW (item->data)) == parent)
      return item->data;
  return NULL;
}

void
bw_ways_window_show (GtkWindow *parent, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAFT (draft));
  BwWaysWindow *self = find_of (parent);
  if (!self) {
    self = g_object_new (BW_TYPE_WAYS_WINDOW, "transient-for", parent, NULL);
    self->draft = g_object_ref (draft);
    self->project = g_object_ref (bw_draft_get_project (draft));
    g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                             G_CONNECT_SWAPPED);
    g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                             G_CALLBACK (gtk_window_close), self, G_CONNECT_SWAPPED);
    begin (self);
    bw_part_names_give (GTK_WIDGET (self));
  }
  gtk_window_present (GTK_WINDOW (self));
}

static void
bw_ways_window_dispose (GObject *object)
{
  BwWaysWindow *self = BW_WAYS_WINDOW (object);
  g_clear_handle_id (&self->beat, g_source_remove);
  if (self->finder) {
    g_signal_handlers_disconnect_by_data (self->finder, self);
    bw_way_finder_stop (self->finder);
  }
  if (self->stop)
    g_cancellable_cancel (self->stop);
  g_clear_object (&self->finder);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_ways_window_parent_class)->dispose (object);
}

static void
bw_ways_window_finalize (GObject *object)
{
  BwWaysWindow *self = BW_WAYS_WINDOW (object);
  g_clear_object (&self->stop);
  g_clear_pointer (&self->text, g_bytes_unref);
  g_ptr_array_unref (self->looks);
  G_OBJECT_CLASS (bw_ways_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, filters);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, work);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, again);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, matters);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, bead);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, columns);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, odds);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, want);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, only);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, weights);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, progress);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, words);
  gtk_widget_class_bind_template_child (widget_class, BwWaysWindow, cards);
}

static void
bw_ways_window_class_init (BwWaysWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_ways_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_ways_window_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/ways-window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, begin);
  gtk_widget_class_bind_template_callback (widget_class, stop);
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, filter_chosen);
  gtk_widget_class_bind_template_callback (widget_class, want_chosen);
}

static void
drop_look (gpointer look)
{
  if (look)
    bw_way_look_free (look);
}

static void
bw_ways_window_init (BwWaysWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->filters, bw_wrap_layout_new (10));
  fill_fixed_lists (self);
  for (int i = 0; i < BW_N_MATTERS; i++)
    add_weight (self, i);
  self->looks = g_ptr_array_new_with_free_func (drop_look);
  self->stop = g_cancellable_new ();
  self->finder = bw_way_finder_new ();
  g_signal_connect_swapped (self->finder, "changed", G_CALLBACK (search_changed), self);
}
