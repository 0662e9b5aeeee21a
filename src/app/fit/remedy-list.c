/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies on screen. Each carries the whole design it stands for, so that doing it is one step. */
#include "config.h"

#include "app/fit/remedy-list.h"
#include "app/fit/remedy-words.h"
#include "app/fit/sure-words.h"
#include "core/band/would-help.h"
#include "app/kit/settings.h"
#include "app/ask/tell.h"
#include "app/kit/words.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

struct _BwRemedyList {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project;
  GtkListBox *list, *tried; /* each row of a remedy keeps it */
  GtkLabel *none;
  GtkWidget *unfold;
  GtkWidget *ways; /* another bead, width and height together */
};

enum { APPLIED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwRemedyList, bw_remedy_list, GTK_TYPE_WIDGET)

/* Other rows as a remedy; FALSE when they are woven already. */
static gboolean
other_rows (BwProject *project, int rows, BwRemedy *remedy)
{
  const BwDesign *design = bw_project_get_design (project);
  if (rows == 0 || rows == design->band.rows)
    return FALSE;
  *remedy = (BwRemedy){ .kind = BW_REMEDY_ROWS, .value = rows, .design = *design };
  remedy->design.band.rows = rows;
  remedy->verdict = bw_fit_verdict (&remedy->design, bw_project_stone (project), rows,
                                    &remedy->gap_min_mm, &remedy->gap_max_mm);
  return bw_design_validate (&remedy->design, NULL, NULL);
}

static gboolean
has_rows (const GArray *all, const BwRemedy *remedy)
{
  for (guint i = 0; remedy->kind == BW_REMEDY_ROWS && i < all->len; i++) {
    const BwRemedy *other = &g_array_index (all, BwRemedy, i);
    if (other->kind == BW_REMEDY_ROWS && other->design.band.rows == remedy->design.band.rows)
      return TRUE;
  }
  return FALSE;
}

GArray *
bw_remedy_list_collect (BwProject *project)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (BwRemedy));
  const GArray *others = bw_project_remedies (project);
  BwFitTold told = bw_fit_told (project);
  const int rows[] = { 2 * bw_project_forecast (project)->recommended, told.safer_rows };
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    BwRemedy remedy;
    if (other_rows (project, rows[i], &remedy) && !has_rows (all, &remedy))
      g_array_append_val (all, remedy);
  }
  for (guint i = 0; i < others->len; i++) {
    const BwRemedy *remedy = &g_array_index (others, BwRemedy, i);
    if (!has_rows (all, remedy))
      g_array_append_vals (all, remedy, 1);
  }
  return all;
}

/* In the order of the list: other rows, which follow the bead and cost nothing, come first. */
gboolean
bw_remedy_list_best (BwProject *project, BwRemedy *best)
{
  g_autoptr (GArray) all = bw_remedy_list_collect (project);
  BwFitTold told = bw_fit_told (project);
  for (guint i = 0; i < all->len; i++) {
    const BwRemedy *remedy = &g_array_index (all, BwRemedy, i);
    if (bw_fit_told_helps (&told, remedy)) {
      *best = *remedy;
      return TRUE;
    }
  }
  return FALSE;
}

/* Strip lengths measured with another bead say nothing about the new one. */
static gboolean
drop_checks (BwProject *project, GError **error)
{
  return bw_project_set_progress (project, "", bw_project_get_rows_done (project), NULL, 0, error);
}

gboolean
bw_remedy_apply (BwDraft *draft, const BwRemedy *remedy, GError **error)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *label = bw_remedy_words_do (remedy, bw_draft_get_design (draft), unit);
  BwDesign design = remedy->design;
  BwProject *project = bw_draft_get_project (draft);
  bw_draft_settle (draft);
  bw_project_begin (project, label);
  gboolean done = (remedy->kind != BW_REMEDY_BEAD || drop_checks (project, error))
                  && bw_draft_apply (draft, label, &design, error);
  if (done)
    bw_project_commit (project);
  else
    bw_project_revert (project);
  return done;
}

/* What stood when it was offered may not stand any more: that is told, and no more than that. */
void
bw_remedy_try (GtkWidget *widget, BwDraft *draft, const BwRemedy *remedy)
{
  g_autoptr (GError) error = NULL;
  if (bw_remedy_apply (draft, remedy, &error))
    return;
  g_autofree char *sentence
      = g_strdup_printf (_ ("That is no help any more: %s"), bw_fault_sentence (error));
  bw_tell (widget, GTK_MESSAGE_WARNING, sentence);
}

static GtkWidget *
line (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  bw_label_set_words (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
  if (style)
    gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
row_of (const char *what, const char *gives)
{
  g_autofree char *name = g_strdup_printf ("%s. %s", what, gives);
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (box), line (what, NULL));
  gtk_box_append (GTK_BOX (box), line (gives, "small"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

static void
empty (GtkListBox *list)
{
  GtkListBoxRow *row;
  while ((row = gtk_list_box_get_row_at_index (list, 0)))
    gtk_list_box_remove (list, GTK_WIDGET (row));
}

/* What the pitch is not measured with is the greatest help of all to the odds; what else would help
 * is told with it, in order. */
static void
add_swatch (BwRemedyList *self)
{
  const BwDesign *design = bw_draft_get_design (self->draft);
  BwProject *project = bw_draft_get_project (self->draft);
  if (design->gauge.has_swatch)
    return;
  g_autofree char *gives = bw_sure_words_helps (design, bw_project_stone (project),
                                                bw_project_forecast (project)->try_on_row,
                                                bw_project_get_rows_done (project));
  gtk_list_box_append (self->list, row_of (_ ("Measure a swatch…"), gives));
}

static void
add_remedy (BwRemedyList *self, const BwRemedy *remedy, const BwFitTold *told)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  gboolean helps = bw_fit_told_helps (told, remedy);
  g_autofree char *what = bw_remedy_words_do (remedy, bw_draft_get_design (self->draft), unit);
  g_autofree char *gives = bw_remedy_words_promise (remedy, told, unit);
  GtkWidget *row = row_of (what, gives);
  g_object_set_data_full (G_OBJECT (row), "remedy", g_memdup2 (remedy, sizeof *remedy), g_free);
  gtk_list_box_append (helps ? self->list : self->tried, row);
}

/* Where no change helps, a measurement may. Owned. */
static char *
nothing_words (BwProject *project, BwFitSign sign)
{
  const BwDesign *design = bw_project_get_design (project);
  const BwStone *stone = bw_project_stone (project);
  BwHelps helps;
  if (sign != BW_SIGN_NEAR_EVEN)
    return g_strdup (_ ("Nothing by itself makes it snug."));
  bw_helps_init (&helps, design, stone);
  if (helps.n == 0)
    return g_strdup (_ ("Nothing but the try-on betters the odds."));
  return bw_sure_words_helps (design, stone, bw_project_forecast (project)->try_on_row,
                              bw_project_get_rows_done (project));
}

void
bw_remedy_list_fill (BwRemedyList *self)
{
  g_return_if_fail (BW_IS_REMEDY_LIST (self));
  BwProject *project = bw_draft_get_project (self->draft);
  BwFitTold told = bw_fit_told (project);
  g_autoptr (GArray) remedies = bw_remedy_list_collect (project);
  empty (self->list);
  empty (self->tried);
  if (told.sign == BW_SIGN_NEAR_EVEN && !bw_fit_told_is_woven (&told))
    add_swatch (self);
  for (guint i = 0; i < remedies->len; i++)
    add_remedy (self, &g_array_index (remedies, BwRemedy, i), &told);
  gboolean none = gtk_list_box_get_row_at_index (self->list, 0) == NULL;
  g_autofree char *nothing = nothing_words (project, told.sign);
  bw_label_set_words (self->none, nothing);
  gtk_widget_set_visible (GTK_WIDGET (self->none), none);
  gtk_widget_set_visible (GTK_WIDGET (self->list), !none);
  gtk_widget_set_visible (self->ways, told.verdict != BW_VERDICT_SNUG);
  gtk_widget_set_visible (self->unfold, gtk_list_box_get_row_at_index (self->tried, 0) != NULL);
}

/* The list is filled anew by what the remedy changes: a copy lasts. */
static void
row_activated (BwRemedyList *self, GtkListBoxRow *row)
{
  const BwRemedy *chosen = g_object_get_data (G_OBJECT (row), "remedy");
  BwRemedy remedy = chosen ? *chosen : (BwRemedy){ 0 };
  gboolean swatch = !chosen;
  g_signal_emit (self, signals[APPLIED], 0);
  if (swatch)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.swatch", NULL);
  else
    bw_remedy_try (GTK_WIDGET (self), self->draft, &remedy);
}

static void
ways_clicked (BwRemedyList *self)
{
  g_signal_emit (self, signals[APPLIED], 0);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.ways", NULL);
}

/* While the list is open the project can change below it, by undo for one. */
static void
project_changed (BwRemedyList *self, guint what)
{
  if ((what & BW_CHANGED_DESIGN) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    bw_remedy_list_fill (self);
}

static void
follow_project (BwRemedyList *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_set_object (&self->project, bw_draft_get_project (self->draft));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (project_changed), self);
}

void
bw_remedy_list_bind (BwRemedyList *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_REMEDY_LIST (self));
  g_set_object (&self->draft, draft);
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (follow_project), self, G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
bw_remedy_list_dispose (GObject *object)
{
  BwRemedyList *self = BW_REMEDY_LIST (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_remedy_list_parent_class)->dispose (object);
}

static void
bw_remedy_list_class_init (BwRemedyListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_remedy_list_dispose;
  signals[APPLIED] = g_signal_new ("applied", BW_TYPE_REMEDY_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/remedy-list.ui");
  gtk_widget_class_bind_template_child (widget_class, BwRemedyList, list);
  gtk_widget_class_bind_template_child (widget_class, BwRemedyList, tried);
  gtk_widget_class_bind_template_child (widget_class, BwRemedyList, none);
  gtk_widget_class_bind_template_child (widget_class, BwRemedyList, unfold);
  gtk_widget_class_bind_template_child (widget_class, BwRemedyList, ways);
  gtk_widget_class_bind_template_callback (widget_class, row_activated);
  gtk_widget_class_bind_template_callback (widget_class, ways_clicked);
}

static void
bw_remedy_list_init (BwRemedyList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
