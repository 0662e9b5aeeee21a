/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions on the Make stage, with the thread's own warnings before them. */
#include "config.h"

#include "app/kit/words.h"
#include "app/make/make-cards.h"

#include "app/kit/settings.h"
#include "output/sheet/cautions.h"

struct _BwCautionsCard {
  BwCard parent_instance;
  GtkBox *list;
};

G_DEFINE_FINAL_TYPE (BwCautionsCard, bw_cautions_card, BW_TYPE_CARD)

static void
add_line (BwCautionsCard *self, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  bw_label_set_words (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (self->list, label);
}

/* The first n are graver than the rest. */
static void
add_lines (BwCautionsCard *self, char **lines, int n)
{
  for (int i = 0; lines[i]; i++)
    add_line (self, lines[i], i < n ? "warning-text" : NULL);
}

static void
bw_cautions_card_refresh (BwCard *card)
{
  BwCautionsCard *self = BW_CAUTIONS_CARD (card);
  BwProject *project = bw_card_get_project (card);
  g_auto (GStrv) warnings = bw_project_warnings_about (
      project, BW_TOPIC_THREAD | BW_TOPIC_MATERIALS, bw_settings_get_unit (bw_settings_get ()));
  int n_grave;
  g_auto (GStrv) cautions = bw_cautions_new (project, &n_grave);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->list))))
    gtk_box_remove (self->list, child);
  add_lines (self, warnings, G_MAXINT);
  add_lines (self, cautions, n_grave);
  add_line (self, bw_cautions_deference (), "small");
}

static void
bw_cautions_card_class_init (BwCautionsCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_cautions_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/cautions-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwCautionsCard, list);
}

static void
bw_cautions_card_init (BwCautionsCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
