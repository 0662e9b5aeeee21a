/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is folded stays in the tree of widgets: it is bound and named like the rest. A template says
 * the title, what the line tells and the content. */
#include "config.h"

#include "app/make/make-fold.h"
#include "app/kit/description.h"
#include "app/kit/settings.h"
#include "app/ask/show-opened.h"
#include "app/kit/words.h"
#include "app/make/make-lines.h"

struct _BwMakeFold {
  BwCard parent_instance;
  BwMakeLine tells;
  GtkButton *head;
  GtkLabel *title;
  GtkLabel *line;
  GtkBox *place;
};

G_DEFINE_FINAL_TYPE (BwMakeFold, bw_make_fold, BW_TYPE_CARD)

enum { PROP_TITLE = 1, PROP_TELLS, PROP_CONTENT, N_PROPS };
static GParamSpec *properties[N_PROPS];

gboolean
bw_make_fold_is_open (BwMakeFold *self)
{
  g_return_val_if_fail (BW_IS_MAKE_FOLD (self), FALSE);
  return gtk_widget_get_visible (GTK_WIDGET (self->place));
}

static void
show_open (BwMakeFold *self, gboolean open)
{
  gtk_widget_set_visible (GTK_WIDGET (self->place), open);
  if (open)
    gtk_widget_add_css_class (GTK_WIDGET (self), "open");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "open");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->head), GTK_ACCESSIBLE_STATE_EXPANDED, open,
                               -1);
}

static void
head_clicked (BwMakeFold *self)
{
  show_open (self, !bw_make_fold_is_open (self));
  if (bw_make_fold_is_open (self))
    bw_show_opened (GTK_WIDGET (self), GTK_WIDGET (self->place));
}

static void
bw_make_fold_refresh (BwCard *card)
{
  BwMakeFold *self = BW_MAKE_FOLD (card);
  g_autofree char *line = bw_make_line (self->tells, bw_card_get_project (card),
                                        bw_settings_get_unit (bw_settings_get ()));
  bw_label_set_words (self->line, line);
}

static void
bw_make_fold_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwMakeFold *self = BW_MAKE_FOLD (object);
  if (id == PROP_TITLE)
    gtk_label_set_text (self->title, g_value_get_string (value));
  else if (id == PROP_TELLS)
    self->tells = (BwMakeLine)g_value_get_int (value);
  else if (g_value_get_object (value))
    gtk_box_append (self->place, g_value_get_object (value));
}

static void
bw_make_fold_class_init (BwMakeFoldClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;
  object_class->set_property = bw_make_fold_set_property;
  BW_CARD_CLASS (klass)->refresh = bw_make_fold_refresh;
  properties[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  properties[PROP_TELLS] = g_param_spec_int ("tells", NULL, NULL, 0, BW_N_MAKE_LINES - 1, 0, flags);
  properties[PROP_CONTENT] = g_param_spec_object ("content", NULL, NULL, GTK_TYPE_WIDGET, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "makefold");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/make-fold.ui");
  gtk_widget_class_bind_template_child (widget_class, BwMakeFold, head);
  gtk_widget_class_bind_template_child (widget_class, BwMakeFold, title);
  gtk_widget_class_bind_template_child (widget_class, BwMakeFold, line);
  gtk_widget_class_bind_template_child (widget_class, BwMakeFold, place);
  gtk_widget_class_bind_template_callback (widget_class, head_clicked);
}

static void
bw_make_fold_init (BwMakeFold *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_describe (GTK_WIDGET (self->head), self->line);
  show_open (self, FALSE);
}
