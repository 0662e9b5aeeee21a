/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/ask/notice.h"
#include "app/kit/words.h"

#define READING_S 8 /* long enough to read a sentence twice */

struct _BwNotice {
  GtkWidget parent_instance;
  GtkInfoBar *bar;
  GtkLabel *words;
  guint leaving;
};

G_DEFINE_FINAL_TYPE (BwNotice, bw_notice, GTK_TYPE_WIDGET)

void
bw_notice_clear (BwNotice *self)
{
  g_return_if_fail (BW_IS_NOTICE (self));
  g_clear_handle_id (&self->leaving, g_source_remove);
  gtk_info_bar_set_revealed (self->bar, FALSE);
}

/* What went well waits to go away by itself. */
void
bw_notice_outdate (BwNotice *self)
{
  g_return_if_fail (BW_IS_NOTICE (self));
  if (self->leaving)
    bw_notice_clear (self);
}

static gboolean
leave (gpointer data)
{
  BwNotice *self = data;
  self->leaving = 0;
  bw_notice_clear (self);
  return G_SOURCE_REMOVE;
}

void
bw_notice_tell (BwNotice *self, GtkMessageType type, const char *sentence)
{
  g_return_if_fail (BW_IS_NOTICE (self));
  g_clear_handle_id (&self->leaving, g_source_remove);
  gtk_info_bar_set_message_type (self->bar, type);
  bw_label_set_words (self->words, sentence);
  gtk_info_bar_set_revealed (self->bar, TRUE);
  if (type == GTK_MESSAGE_INFO)
    self->leaving = g_timeout_add_seconds (READING_S, leave, self);
}

static void
bw_notice_dispose (GObject *object)
{
  BwNotice *self = BW_NOTICE (object);
  GtkWidget *child;
  g_clear_handle_id (&self->leaving, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_notice_parent_class)->dispose (object);
}

static void
bw_notice_class_init (BwNoticeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_notice_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "notice");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/notice.ui");
  gtk_widget_class_bind_template_child (widget_class, BwNotice, bar);
  gtk_widget_class_bind_template_child (widget_class, BwNotice, words);
  gtk_widget_class_bind_template_callback (widget_class, bw_notice_clear);
}

static void
bw_notice_init (BwNotice *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
