/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Templates say its title, the matter its line tells, and the file of what is in it, which is made
 * when it is first opened: most folds of most pieces never are. From then on it stays in the tree
 * of widgets, bound and named like the rest. */
#include "config.h"

#include "app/measure/fold-card.h"
#include "app/kit/description.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "app/ask/show-opened.h"
#include "app/kit/words.h"
#include "app/measure/matter-words.h"

struct _BwFoldCard {
  BwCard parent_instance;
  BwMatter matter;
  GtkButton *head;
  GtkLabel *title;
  GtkLabel *line;
  GtkBox *place;
  char *content; /* the name of its file; NULL when it is there */
};

G_DEFINE_FINAL_TYPE (BwFoldCard, bw_fold_card, BW_TYPE_CARD)

enum { PROP_TITLE = 1, PROP_MATTER, PROP_CONTENT, N_PROPS };
static GParamSpec *properties[N_PROPS];

gboolean
bw_fold_card_get_open (BwFoldCard *self)
{
  g_return_val_if_fail (BW_IS_FOLD_CARD (self), FALSE);
  return gtk_widget_get_visible (GTK_WIDGET (self->place));
}

void
bw_fold_card_fill (BwFoldCard *self)
{
  g_return_if_fail (BW_IS_FOLD_CARD (self));
  if (!self->content)
    return;
  g_autofree char *path
      = g_strconcat ("/io/github/bandwright/Bandwright/", self->content, ".ui", NULL);
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource (path);
  GtkWidget *content = GTK_WIDGET (gtk_builder_get_object (builder, "content"));
  g_clear_pointer (&self->content, g_free);
  gtk_box_append (self->place, content);
  if (bw_card_get_draft (BW_CARD (self)))
    bw_cards_bind (content, bw_card_get_draft (BW_CARD (self)));
  bw_part_names_give (content);
}

static void
show_open (BwFoldCard *self, gboolean open)
{
  if (open)
    bw_fold_card_fill (self);
  gtk_widget_set_visible (GTK_WIDGET (self->place), open);
  if (open)
    gtk_widget_add_css_class (GTK_WIDGET (self), "open");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "open");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->head), GTK_ACCESSIBLE_STATE_EXPANDED, open,
                               -1);
}

static void
head_clicked (BwFoldCard *self)
{
  show_open (self, !bw_fold_card_get_open (self));
  if (bw_fold_card_get_open (self))
    bw_show_opened (GTK_WIDGET (self), GTK_WIDGET (self->place));
}

/* What the line had no room for. */
static gboolean
tell_line (GtkWidget *line, int x, int y, gboolean by_keyboard, GtkTooltip *tooltip)
{
  gtk_tooltip_set_text (tooltip, gtk_label_get_text (GTK_LABEL (line)));
  return TRUE;
}

static void
bw_fold_card_refresh (BwCard *card)
{
  BwFoldCard *self = BW_FOLD_CARD (card);
  g_autofree char *line = bw_matter_words (self->matter, bw_card_get_project (card),
                                           bw_settings_get_unit (bw_settings_get ()));
  bw_label_set_words (self->line, line);
}

static void
bw_fold_card_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwFoldCard *self = BW_FOLD_CARD (object);
  if (id == PROP_TITLE) {
    gtk_label_set_text (self->title, g_value_get_string (value));
  } else if (id == PROP_MATTER) {
    self->matter = (BwMatter)g_value_get_int (value);
  } else {
    g_free (self->content);
    self->content = g_value_dup_string (value);
  }
}

static void
bw_fold_card_finalize (GObject *object)
{
  g_free (BW_FOLD_CARD (object)->content);
  G_OBJECT_CLASS (bw_fold_card_parent_class)->finalize (object);
}

static void
bw_fold_card_class_init (BwFoldCardClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;
  object_class->set_property = bw_fold_card_set_property;
  object_class->finalize = bw_fold_card_finalize;
  BW_CARD_CLASS (klass)->refresh = bw_fold_card_refresh;
  properties[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  properties[PROP_MATTER] = g_param_spec_int ("matter", NULL, NULL, 0, BW_N_MATTERS - 1, 0, flags);
  properties[PROP_CONTENT] = g_param_spec_string ("content", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "fold");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/fold-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFoldCard, head);
  gtk_widget_class_bind_template_child (widget_class, BwFoldCard, title);
  gtk_widget_class_bind_template_child (widget_class, BwFoldCard, line);
  gtk_widget_class_bind_template_child (widget_class, BwFoldCard, place);
  gtk_widget_class_bind_template_callback (widget_class, head_clicked);
  gtk_widget_class_bind_template_callback (widget_class, tell_line);
}

static void
bw_fold_card_init (BwFoldCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_describe (GTK_WIDGET (self->head), self->line);
  show_open (self, FALSE);
}
