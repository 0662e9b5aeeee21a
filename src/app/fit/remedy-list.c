/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies on screen. Each carries the whole design it stands for, so that doing it is one step. */
#include "config.h"

#include "app/fit/fit-words.h"
#include "app/fit/remedy-list.h"
#include "app/kit/settings.h"
#include "app/kit/tell.h"
#include "app/kit/words.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

struct _BwRemedyList {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project;
  GArray *remedies; /* of BwRemedy, as they were when the list was filled */
  GtkListBox *list;
};

enum { APPLIED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (BwRemedyList, bw_remedy_list, GTK_TYPE_WIDGET)

/* The recommended rows as a remedy; FALSE when they are woven already. */
static gboolean
recommended_rows (BwProject *project, BwRemedy *remedy)
{
  const BwDesign *design = bw_project_get_design (project);
  int rows = 2 * bw_project_forecast (project)->recommended;
  if (rows == design->band.rows)
    return FALSE;
  *remedy = (BwRemedy){ .kind = BW_REMEDY_ROWS, .value = rows, .design = *design };
  remedy->design.band.rows = rows;
  remedy->verdict = bw_fit_verdict (&remedy->design, bw_project_stone (project), rows,
                                    &remedy->gap_min_mm, &remedy->gap_max_mm);
  return bw_design_validate (&remedy->design, NULL, NULL);
}

GArray *
bw_remedy_list_collect (BwProject *project)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (BwRemedy));
  const GArray *others = bw_project_remedies (project);
  BwRemedy first;
  gboolean has_first = recommended_rows (project, &first);
  if (has_first)
    g_array_append_val (all, first);
  for (guint i = 0; i < others->len; i++) {
    const BwRemedy *remedy = &g_array_index (others, BwRemedy, i);
    gboolean again = has_first && remedy->kind == BW_REMEDY_ROWS
                     && remedy->design.band.rows == first.design.band.rows;
    if (!again)
      g_array_append_vals (all, remedy, 1);
  }
  return all;
}

gboolean
bw_remedy_list_best (BwProject *project, BwRemedy *best)
{
  g_autoptr (GArray) all = bw_remedy_list_collect (project);
  for (guint i = 0; i < all->len; i++) {
    if (g_array_index (all, BwRemedy, i).verdict != BW_VERDICT_SNUG)
      continue;
    *best = g_array_index (all, BwRemedy, i);
    return TRUE;
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
row_for (BwRemedyList *self, const BwRemedy *remedy)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *what = bw_remedy_words_do (remedy, bw_draft_get_design (self->draft), unit);
  g_autofree char *gives = bw_remedy_words_gives (remedy, unit);
  g_autofree char *name = g_strdup_printf ("%s. %s", what, gives);
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *head = line (what, remedy->verdict == BW_VERDICT_SNUG ? "snug" : NULL);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), line (gives, "small"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

void
bw_remedy_list_fill (BwRemedyList *self)
{
  GtkListBoxRow *row;
  g_return_if_fail (BW_IS_REMEDY_LIST (self));
  while ((row = gtk_list_box_get_row_at_index (self->list, 0)))
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  g_clear_pointer (&self->remedies, g_array_unref);
  self->remedies = bw_remedy_list_collect (bw_draft_get_project (self->draft));
  for (guint i = 0; i < self->remedies->len; i++)
    gtk_list_box_append (self->list, row_for (self, &g_array_index (self->remedies, BwRemedy, i)));
}

/* The list is filled anew by what the remedy changes: a copy lasts. */
static void
row_activated (BwRemedyList *self, GtkListBoxRow *row)
{
  int i = gtk_list_box_row_get_index (row);
  BwRemedy remedy = g_array_index (self->remedies, BwRemedy, i);
  g_signal_emit (self, signals[APPLIED], 0);
  bw_remedy_try (GTK_WIDGET (self), self->draft, &remedy);
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
  g_clear_pointer (&self->remedies, g_array_unref);
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
  gtk_widget_class_bind_template_callback (widget_class, row_activated);
}

static void
bw_remedy_list_init (BwRemedyList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
