/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arrow points where the side will go: outward to fold, inward to come back. */
#include "config.h"

#include "app/kit/fold-handle.h"
#include "app/kit/tip.h"

struct _BwFoldHandle {
  GtkToggleButton parent_instance;
  GtkImage *arrow;
  gboolean at_end;
  char *fold, *unfold, *key;
};

G_DEFINE_FINAL_TYPE (BwFoldHandle, bw_fold_handle, GTK_TYPE_TOGGLE_BUTTON)

static void
show_state (BwFoldHandle *self)
{
  gboolean folded = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self));
  gboolean mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  gboolean right = (folded != self->at_end) != mirrored;
  const char *words = folded ? self->unfold : self->fold;
  gtk_image_set_from_icon_name (self->arrow,
                                right ? "bandwright-unfold-symbolic" : "bandwright-fold-symbolic");
  if (words == NULL)
    return;
  g_autofree char *tip = g_strdup_printf ("%s (%s)", words, self->key);
  bw_tip_set (GTK_WIDGET (self), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

static void
bw_fold_handle_direction_changed (GtkWidget *widget, GtkTextDirection before)
{
  GTK_WIDGET_CLASS (bw_fold_handle_parent_class)->direction_changed (widget, before);
  show_state (BW_FOLD_HANDLE (widget));
}

static void
bw_fold_handle_finalize (GObject *object)
{
  BwFoldHandle *self = BW_FOLD_HANDLE (object);
  g_free (self->fold);
  g_free (self->unfold);
  g_free (self->key);
  G_OBJECT_CLASS (bw_fold_handle_parent_class)->finalize (object);
}

static void
bw_fold_handle_class_init (BwFoldHandleClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_fold_handle_finalize;
  GTK_WIDGET_CLASS (klass)->direction_changed = bw_fold_handle_direction_changed;
}

static void
bw_fold_handle_init (BwFoldHandle *self)
{
  self->arrow = GTK_IMAGE (gtk_image_new ());
  gtk_image_set_pixel_size (self->arrow, 16);
  gtk_button_set_child (GTK_BUTTON (self), GTK_WIDGET (self->arrow));
  gtk_widget_add_css_class (GTK_WIDGET (self), "flat");
  gtk_widget_add_css_class (GTK_WIDGET (self), "foldhandle");
  gtk_widget_set_focus_on_click (GTK_WIDGET (self), FALSE);
  g_signal_connect (self, "toggled", G_CALLBACK (show_state), NULL);
  show_state (self);
}

void
bw_fold_handle_say (BwFoldHandle *self, gboolean at_end, const char *fold, const char *unfold,
                    const char *key)
{
  g_return_if_fail (BW_IS_FOLD_HANDLE (self) && self->fold == NULL);
  self->at_end = at_end;
  self->fold = g_strdup (fold);
  self->unfold = g_strdup (unfold);
  self->key = g_strdup (key);
  show_state (self);
}
