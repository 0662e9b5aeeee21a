/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a card does, the window does: it only calls the window's actions, with its own file. */
#include "config.h"

#include "app/shelf/shelf-card.h"
#include "project/file/file-name.h"
#include "app/kit/settings.h"
#include "app/kit/tip.h"
#include "app/kit/words.h"
#include "app/shelf/shelf-stand.h"

#include <glib/gi18n-lib.h>

struct _BwShelfCard {
  GtkFlowBoxChild parent_instance;
  BwShelfKind kind;
  GFile *file;
  BwShelfState state;
  int rows, woven;
  double length_mm;
  BwShelfStand *stand;
  GtkLabel *title;
  GtkLabel *words;
  GtkMenuButton *more;
  GtkWidget *take_off;
};

G_DEFINE_FINAL_TYPE (BwShelfCard, bw_shelf_card, GTK_TYPE_FLOW_BOX_CHILD)

BwShelfKind
bw_shelf_card_get_kind (BwShelfCard *self)
{
  g_return_val_if_fail (BW_IS_SHELF_CARD (self), BW_CARD_NEW);
  return self->kind;
}

GFile *
bw_shelf_card_get_file (BwShelfCard *self)
{
  g_return_val_if_fail (BW_IS_SHELF_CARD (self), NULL);
  return self->file;
}

BwShelfState
bw_shelf_card_get_state (BwShelfCard *self)
{
  g_return_val_if_fail (BW_IS_SHELF_CARD (self), BW_SHELF_WAITING);
  return self->state;
}

const char *
bw_shelf_card_get_name (BwShelfCard *self)
{
  g_return_val_if_fail (BW_IS_SHELF_CARD (self), "");
  return gtk_label_get_text (self->title);
}

GtkWidget *
bw_shelf_card_get_stand (BwShelfCard *self)
{
  g_return_val_if_fail (BW_IS_SHELF_CARD (self), NULL);
  return GTK_WIDGET (self->stand);
}

void
bw_shelf_card_open_menu (BwShelfCard *self)
{
  g_return_if_fail (BW_IS_SHELF_CARD (self));
  if (gtk_widget_get_visible (GTK_WIDGET (self->more)))
    gtk_menu_button_popup (self->more);
}

/* --- What it says ------------------------------------------------------------------------------
 */

static char *
numbers_words (BwShelfCard *self)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *length = bw_length_format (self->length_mm, unit, 1);
  if (self->woven > 0 && self->woven < self->rows)
    return g_strdup_printf (_ ("%s · %d of %d rows woven"), length, self->woven, self->rows);
  if (self->woven > 0)
    return g_strdup_printf (_ ("%s · woven"), length);
  return g_strdup_printf (ngettext ("%s · %d row", "%s · %d rows", (gulong)self->rows), length,
                          self->rows);
}

/* Owned. */
static char *
state_words (BwShelfCard *self)
{
  switch (self->state) {
  case BW_SHELF_SOUND:
    return numbers_words (self);
  case BW_SHELF_GONE:
    return g_strdup (_ ("no longer there"));
  case BW_SHELF_BROKEN:
    return g_strdup (_ ("cannot be read"));
  case BW_SHELF_WAITING:
  default:
    return g_strdup (self->kind == BW_CARD_NEW ? _ ("measure and begin") : "…");
  }
}

static void
say (BwShelfCard *self, const char *reason)
{
  g_autofree char *words = state_words (self);
  const char *name = bw_shelf_card_get_name (self);
  g_autofree char *whole = g_strdup_printf (_ ("%s, %s"), name, words);
  g_autofree char *place = self->file ? g_file_get_parse_name (self->file) : NULL;
  g_autofree char *shown = place ? bw_words_shortened (place, 120) : NULL;
  g_autofree char *tip
      = shown ? g_strjoin ("\n", name, reason ? reason : words, shown, NULL) : NULL;
  bw_label_set_words (self->words, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, whole, -1);
  bw_tip_set (GTK_WIDGET (self), tip);
}

static void
name_button (GtkWidget *button, const char *words)
{
  bw_tip_set (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
}

static void
set_name (BwShelfCard *self, const char *name)
{
  g_autofree char *more = g_strdup_printf (_ ("More for “%s”"), name);
  g_autofree char *take_off = g_strdup_printf (_ ("Take “%s” off the shelf"), name);
  gtk_label_set_text (self->title, name);
  name_button (GTK_WIDGET (self->more), more);
  name_button (self->take_off, take_off);
}

static BwStandKind
stand_of (BwShelfState state)
{
  switch (state) {
  case BW_SHELF_SOUND:
    return BW_STAND_PIECE;
  case BW_SHELF_GONE:
  case BW_SHELF_BROKEN:
    return BW_STAND_GONE;
  case BW_SHELF_WAITING:
  default:
    return BW_STAND_WAITS;
  }
}

void
bw_shelf_card_show (BwShelfCard *self, const BwShelfLook *look)
{
  g_return_if_fail (BW_IS_SHELF_CARD (self) && self->file);
  g_autofree char *stem = bw_file_stem (self->file);
  gboolean lost = look->state == BW_SHELF_GONE || look->state == BW_SHELF_BROKEN;
  self->state = look->state;
  self->rows = look->rows;
  self->woven = look->woven;
  self->length_mm = look->length_mm;
  bw_shelf_stand_set (self->stand, stand_of (look->state), look->picture, look->length_mm);
  gtk_widget_set_visible (self->take_off, lost && self->kind == BW_CARD_DESIGN);
  gtk_widget_set_visible (GTK_WIDGET (self->more), !lost);
  set_name (self, look->title && *look->title ? look->title : stem);
  say (self, look->reason);
}

/* --- Its menu ----------------------------------------------------------------------------------
 */

static void
append (GMenu *menu, const char *label, const char *action, GVariant *target)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
  g_menu_item_set_action_and_target_value (item, action, target);
  g_menu_append_item (menu, item);
}

static GMenuModel *
menu_for (BwShelfKind kind, GFile *file)
{
  GMenu *menu = g_menu_new ();
  g_autofree char *uri = g_file_get_uri (file);
  if (kind == BW_CARD_EXAMPLE)
    append (menu, _ ("_Open a Copy"), "win.open-demo",
            g_variant_new_string (g_file_peek_path (file)));
  else
    append (menu, _ ("_Open"), "win.open-file", g_variant_new_string (uri));
  append (menu, _ ("_Same Design on Another Stone…"), "win.restone-file",
          g_variant_new_string (uri));
  if (kind == BW_CARD_DESIGN)
    append (menu, _ ("_Take off the Shelf"), "win.shelf-forget", g_variant_new_string (uri));
  return G_MENU_MODEL (menu);
}

static gboolean
menu_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  bw_shelf_card_open_menu (BW_SHELF_CARD (widget));
  return TRUE;
}

static gboolean
delete_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwShelfCard *self = BW_SHELF_CARD (widget);
  if (self->kind != BW_CARD_DESIGN)
    return FALSE;
  g_autofree char *uri = g_file_get_uri (self->file);
  return gtk_widget_activate_action (widget, "win.shelf-forget", "s", uri);
}

/* When the button is let go: a menu that comes under a pressed button is let go in its place, and
 * the toolkit counts what was never pressed. */
static void
released (GtkGestureClick *click, int n, double x, double y, gpointer self)
{
  bw_shelf_card_open_menu (self);
  gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
bw_shelf_card_finalize (GObject *object)
{
  g_clear_object (&BW_SHELF_CARD (object)->file);
  G_OBJECT_CLASS (bw_shelf_card_parent_class)->finalize (object);
}

static void
bw_shelf_card_class_init (BwShelfCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_shelf_card_finalize;
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Menu, 0, menu_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, menu_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Delete, 0, delete_key, NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/shelf-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwShelfCard, stand);
  gtk_widget_class_bind_template_child (widget_class, BwShelfCard, title);
  gtk_widget_class_bind_template_child (widget_class, BwShelfCard, words);
  gtk_widget_class_bind_template_child (widget_class, BwShelfCard, more);
  gtk_widget_class_bind_template_child (widget_class, BwShelfCard, take_off);
}

static void
bw_shelf_card_init (BwShelfCard *self)
{
  g_type_ensure (BW_TYPE_SHELF_STAND);
  gtk_widget_init_template (GTK_WIDGET (self));
  GtkGesture *click = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "released", G_CALLBACK (released), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

static void
become_empty_place (BwShelfCard *self)
{
  bw_shelf_stand_set (self->stand, BW_STAND_BLANK, NULL, 0);
  gtk_widget_set_visible (GTK_WIDGET (self->more), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "blank");
  set_name (self, _ ("New Stone"));
}

static void
become_file (BwShelfCard *self)
{
  g_autofree char *stem = bw_file_stem (self->file);
  g_autofree char *uri = g_file_get_uri (self->file);
  g_autoptr (GMenuModel) menu = menu_for (self->kind, self->file);
  gtk_menu_button_set_menu_model (self->more, menu);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->take_off), "s", uri);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->take_off), "win.shelf-forget");
  set_name (self, stem);
}

GtkWidget *
bw_shelf_card_new (BwShelfKind kind, GFile *file)
{
  BwShelfCard *self = g_object_new (BW_TYPE_SHELF_CARD, NULL);
  self->kind = kind;
  if (file)
    self->file = g_object_ref (file);
  if (file)
    become_file (self);
  else
    become_empty_place (self);
  say (self, NULL);
  return GTK_WIDGET (self);
}
