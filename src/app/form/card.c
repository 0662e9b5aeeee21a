/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every card does alike. */
#include "config.h"

#include "app/form/card.h"
#include "app/form/field-entry.h"
#include "app/kit/settings.h"
#include "app/kit/term-note.h"
#include "project/fault/fault-error.h"

typedef struct {
  BwDraft *draft;
  BwProject *project;
  gboolean refreshing;
  gboolean stale;    /* changed while nobody could see it */
  GtkLabel *refusal; /* why the last change could not be; NULL before the first */
} BwCardPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (BwCard, bw_card, GTK_TYPE_WIDGET)

static BwCardPrivate *
private_of (BwCard *self)
{
  return bw_card_get_instance_private (self);
}

/* NULL ends it. Below the card's own controls, where the maker is looking. */
static void
show_refusal (BwCard *self, const char *sentence)
{
  BwCardPrivate *priv = private_of (self);
  if (!priv->refusal && !sentence)
    return;
  if (!priv->refusal) {
    priv->refusal
        = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT,
                                   "wrap", TRUE, "xalign", 0.0, NULL));
    gtk_widget_add_css_class (GTK_WIDGET (priv->refusal), "warning-text");
    gtk_widget_insert_before (GTK_WIDGET (priv->refusal), GTK_WIDGET (self), NULL);
  }
  gtk_label_set_text (priv->refusal, sentence ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (priv->refusal), sentence != NULL);
}

void
bw_card_refresh (BwCard *self)
{
  g_return_if_fail (BW_IS_CARD (self));
  BwCardPrivate *priv = private_of (self);
  if (!priv->project || !BW_CARD_GET_CLASS (self)->refresh)
    return;
  if (!gtk_widget_get_mapped (GTK_WIDGET (self))) {
    priv->stale = TRUE;
    return;
  }
  priv->stale = FALSE;
  priv->refreshing = TRUE;
  BW_CARD_GET_CLASS (self)->refresh (self);
  priv->refreshing = FALSE;
}

static void
project_changed (BwCard *self)
{
  show_refusal (self, NULL);
  bw_card_refresh (self);
}

static void
follow_project (BwCard *self)
{
  BwCardPrivate *priv = private_of (self);
  if (priv->project)
    g_signal_handlers_disconnect_by_func (priv->project, project_changed, self);
  show_refusal (self, NULL);
  g_set_object (&priv->project, bw_draft_get_project (priv->draft));
  g_signal_connect_object (priv->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  bw_card_refresh (self);
}

static void
card_bind (BwCard *self, BwDraft *draft)
{
  BwCardPrivate *priv = private_of (self);
  if (!g_set_object (&priv->draft, draft))
    return;
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (follow_project), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_settings_get (), "notify::units", G_CALLBACK (bw_card_refresh), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

/* A closed expander keeps its child apart from the tree of widgets. */
static GtkWidget *
hidden_child (GtkWidget *widget)
{
  if (!GTK_IS_EXPANDER (widget) || gtk_expander_get_expanded (GTK_EXPANDER (widget)))
    return NULL;
  return gtk_expander_get_child (GTK_EXPANDER (widget));
}

void
bw_cards_bind (GtkWidget *root, BwDraft *draft)
{
  if (BW_IS_FIELD_ENTRY (root)) {
    bw_field_entry_bind (BW_FIELD_ENTRY (root), draft);
    return;
  }
  if (BW_IS_CARD (root))
    card_bind (BW_CARD (root), draft);
  if (hidden_child (root))
    bw_cards_bind (hidden_child (root), draft);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    bw_cards_bind (child, draft);
}

BwDraft *
bw_card_get_draft (BwCard *self)
{
  g_return_val_if_fail (BW_IS_CARD (self), NULL);
  return private_of (self)->draft;
}

BwProject *
bw_card_get_project (BwCard *self)
{
  g_return_val_if_fail (BW_IS_CARD (self), NULL);
  return private_of (self)->project;
}

const BwDesign *
bw_card_get_design (BwCard *self)
{
  return bw_project_get_design (bw_card_get_project (self));
}

gboolean
bw_card_is_refreshing (BwCard *self)
{
  g_return_val_if_fail (BW_IS_CARD (self), FALSE);
  return private_of (self)->refreshing || !private_of (self)->project;
}

gboolean
bw_card_apply (BwCard *self, const char *label, const BwDesign *design)
{
  g_autoptr (GError) error = NULL;
  g_return_val_if_fail (BW_IS_CARD (self), FALSE);
  show_refusal (self, NULL);
  if (bw_draft_apply (bw_card_get_draft (self), label, design, &error))
    return TRUE;
  bw_card_refresh (self);
  show_refusal (self, bw_fault_sentence (error));
  return FALSE;
}

char *
bw_card_length (double mm, int decimals)
{
  return bw_length_format (mm, bw_settings_get_unit (bw_settings_get ()), decimals);
}

void
bw_card_set_words (GtkButton *button, const char *words)
{
  GtkWidget *label = gtk_button_get_child (button);
  if (!GTK_IS_LABEL (label)) {
    label = gtk_label_new (NULL);
    gtk_button_set_child (button, label);
    gtk_accessible_update_relation (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                    label, NULL, -1);
  }
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_text_with_mnemonic (GTK_LABEL (label), words);
}

static void
bw_card_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_card_parent_class)->map (widget);
  if (private_of (BW_CARD (widget))->stale)
    bw_card_refresh (BW_CARD (widget));
}

static void
bw_card_dispose (GObject *object)
{
  BwCardPrivate *priv = private_of (BW_CARD (object));
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  priv->refusal = NULL;
  g_clear_object (&priv->draft);
  g_clear_object (&priv->project);
  G_OBJECT_CLASS (bw_card_parent_class)->dispose (object);
}

static void
bw_card_class_init (BwCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  g_type_ensure (BW_TYPE_TERM_NOTE);
  G_OBJECT_CLASS (klass)->dispose = bw_card_dispose;
  widget_class->map = bw_card_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "card");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
bw_card_init (BwCard *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 8);
}
