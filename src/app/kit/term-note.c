/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/term-note.h"
#include "app/kit/term-words.h"
#include "app/kit/tip.h"

#include <glib/gi18n-lib.h>

struct _BwTermNote {
  GtkWidget parent_instance;
  GtkWidget *button;
  gboolean named;
};

G_DEFINE_FINAL_TYPE (BwTermNote, bw_term_note, GTK_TYPE_WIDGET)

enum { PROP_0, PROP_TERM, PROP_NAMED };

static GtkWidget *
note_of (const char *name, const char *meaning)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *title = gtk_label_new (name), *words = gtk_label_new (meaning);
  gtk_widget_add_css_class (title, "card-title");
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 34);
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), words);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  return popover;
}

static void
set_term (BwTermNote *self, const char *term)
{
  const char *name = bw_term_name (term), *meaning = bw_term_meaning (term);
  g_return_if_fail (name && meaning);
  g_autofree char *ask = g_strdup_printf (_ ("What is meant by “%s”?"), name);
  if (self->named)
    gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button), name);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), note_of (name, meaning));
  bw_tip_set (self->button, meaning);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL, ask,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, meaning, -1);
}

static void
bw_term_note_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_NAMED)
    BW_TERM_NOTE (object)->named = g_value_get_boolean (value);
  else if (id == PROP_TERM)
    set_term (BW_TERM_NOTE (object), g_value_get_string (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
bw_term_note_dispose (GObject *object)
{
  g_clear_pointer (&BW_TERM_NOTE (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_term_note_parent_class)->dispose (object);
}

static void
bw_term_note_class_init (BwTermNoteClass *klass)
{
  G_OBJECT_CLASS (klass)->set_property = bw_term_note_set_property;
  G_OBJECT_CLASS (klass)->dispose = bw_term_note_dispose;
  /* First, so that it is known when the term comes. */
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), PROP_NAMED,
      g_param_spec_boolean ("named", NULL, NULL, FALSE,
                            G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS));
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), PROP_TERM,
      g_param_spec_string ("term", NULL, NULL, NULL,
                           G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS));
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
bw_term_note_init (BwTermNote *self)
{
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (self->button), "bandwright-help-symbolic");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (self->button), FALSE);
  gtk_widget_add_css_class (self->button, "term-note");
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_START);
}
