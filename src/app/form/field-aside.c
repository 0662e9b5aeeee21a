/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/form/field-aside.h"
#include "app/kit/words.h"

struct _BwFieldAside {
  GtkWidget parent_instance;
  GtkLabel *reason;
  GtkWidget *ask;
  GtkLabel *question;
  GtkButton *better;
};

G_DEFINE_FINAL_TYPE (BwFieldAside, bw_field_aside, GTK_TYPE_WIDGET)

static guint better_signal;

gboolean
bw_field_aside_is_telling (BwFieldAside *self)
{
  g_return_val_if_fail (BW_IS_FIELD_ASIDE (self), FALSE);
  return gtk_widget_get_visible (GTK_WIDGET (self->reason)) || gtk_widget_get_visible (self->ask);
}

/* What tells nothing takes no room. */
static void
show_whole (BwFieldAside *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), bw_field_aside_is_telling (self));
}

void
bw_field_aside_tell (BwFieldAside *self, const char *reason)
{
  g_return_if_fail (BW_IS_FIELD_ASIDE (self));
  bw_label_set_words (self->reason, reason ? reason : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), reason != NULL);
  show_whole (self);
}

void
bw_field_aside_ask (BwFieldAside *self, const char *question, const char *better)
{
  g_return_if_fail (BW_IS_FIELD_ASIDE (self));
  gtk_widget_set_visible (self->ask, question != NULL);
  bw_label_set_words (self->question, question ? question : "");
  gtk_button_set_label (self->better, better ? better : "");
  gtk_widget_set_visible (GTK_WIDGET (self->better), better != NULL);
  show_whole (self);
}

static void
better_clicked (BwFieldAside *self)
{
  g_signal_emit (self, better_signal, 0);
}

static void
bw_field_aside_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_field_aside_parent_class)->dispose (object);
}

static void
bw_field_aside_class_init (BwFieldAsideClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_field_aside_dispose;
  better_signal = g_signal_new ("better", BW_TYPE_FIELD_ASIDE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/field-aside.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFieldAside, reason);
  gtk_widget_class_bind_template_child (widget_class, BwFieldAside, ask);
  gtk_widget_class_bind_template_child (widget_class, BwFieldAside, question);
  gtk_widget_class_bind_template_child (widget_class, BwFieldAside, better);
  gtk_widget_class_bind_template_callback (widget_class, better_clicked);
}

static void
bw_field_aside_init (BwFieldAside *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
bw_field_aside_new (void)
{
  return g_object_new (BW_TYPE_FIELD_ASIDE, NULL);
}
