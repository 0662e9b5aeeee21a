/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A model over the steps as they stood when it was made; the popover makes a new one when they
 * change. */
#include "config.h"

#include "app/draw/history-popover.h"

#include <glib/gi18n-lib.h>

#define BW_TYPE_HISTORY_LIST (bw_history_list_get_type ())
G_DECLARE_FINAL_TYPE (BwHistoryList, bw_history_list, BW, HISTORY_LIST, GObject)

struct _BwHistoryList {
  GObject parent_instance;
  BwProject *project;
  guint n;
};

static GType
item_type (GListModel *model)
{
  return GTK_TYPE_STRING_OBJECT;
}

static guint
n_items (GListModel *model)
{
  return BW_HISTORY_LIST (model)->n;
}

static gpointer
item_at (GListModel *model, guint position)
{
  BwHistoryList *self = BW_HISTORY_LIST (model);
  if (position >= self->n || position > bw_project_count_steps (self->project))
    return NULL;
  if (position == 0)
    return gtk_string_object_new (_ ("As it was opened"));
  const char *label = bw_project_step_label (self->project, position);
  return gtk_string_object_new (*label ? label : _ ("Change"));
}

static void
list_model_init (GListModelInterface *interface)
{
  interface->get_item_type = item_type;
  interface->get_n_items = n_items;
  interface->get_item = item_at;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (BwHistoryList, bw_history_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static void
bw_history_list_finalize (GObject *object)
{
  g_clear_object (&BW_HISTORY_LIST (object)->project);
  G_OBJECT_CLASS (bw_history_list_parent_class)->finalize (object);
}

static void
bw_history_list_class_init (BwHistoryListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_history_list_finalize;
}

static void
bw_history_list_init (BwHistoryList *self)
{
}

GListModel *
bw_history_list_new (BwProject *project)
{
  g_return_val_if_fail (BW_IS_PROJECT (project), NULL);
  BwHistoryList *self = g_object_new (BW_TYPE_HISTORY_LIST, NULL);
  self->project = g_object_ref (project);
  self->n = bw_project_count_steps (project) + 1;
  return G_LIST_MODEL (self);
}
