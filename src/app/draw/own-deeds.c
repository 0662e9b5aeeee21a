/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A motif is known by its name: what is shown is made anew whenever the folder is looked at. */
#include "config.h"

#include "app/draw/name-motif.h"
#include "app/draw/own-deeds.h"
#include "app/draw/own-motifs.h"
#include "app/draw/own-picture.h"
#include "app/ask/file-dialog.h"
#include "app/kit/menu-at.h"
#include "app/ask/tell-file.h"
#include "app/ask/tell.h"
#include "app/ask/sure.h"

#include <glib/gi18n-lib.h>

typedef struct {
  GtkWidget *panel;
  GtkFlowBox *box;
  void (*changed) (GtkWidget *panel);
  char *name; /* the motif spoken of */
} Deeds;

static void
deeds_free (gpointer data)
{
  Deeds *deeds = data;
  g_free (deeds->name);
  g_free (deeds);
}

const char *
bw_own_deeds_name (GtkFlowBoxChild *child)
{
  GtkWidget *picture = gtk_widget_get_first_child (gtk_flow_box_child_get_child (child));
  return bw_own_picture_get (BW_OWN_PICTURE (picture))->name;
}

static GtkWindow *
window_of (Deeds *deeds)
{
  return GTK_WINDOW (gtk_widget_get_root (deeds->panel));
}

static GtkFlowBoxChild *
child_with_focus (Deeds *deeds)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (deeds->panel));
  return focus && GTK_IS_FLOW_BOX_CHILD (focus) ? GTK_FLOW_BOX_CHILD (focus) : NULL;
}

/* The keyboard stays where it was, also where another motif now is. */
static void
show_anew (Deeds *deeds, const char *name)
{
  GtkFlowBoxChild *child = child_with_focus (deeds);
  int at = child ? gtk_flow_box_child_get_index (child) : 0;
  deeds->changed (deeds->panel);
  GtkFlowBoxChild *next = gtk_flow_box_get_child_at_index (deeds->box, at);
  if (!next)
    next = gtk_flow_box_get_child_at_index (deeds->box, at - 1);
  for (int i = 0; (child = gtk_flow_box_get_child_at_index (deeds->box, i)); i++)
    if (name && g_str_equal (bw_own_deeds_name (child), name))
      next = child;
  gtk_widget_grab_focus (next ? GTK_WIDGET (next) : deeds->panel);
}

/* --- Another name ------------------------------------------------------------------------------
 */

static void
named (const char *wanted, gpointer data)
{
  Deeds *deeds = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = bw_own_motif_rename (deeds->name, wanted, &error);
  if (!name) {
    g_autofree char *words
        = g_strdup_printf (_ ("The motif could not be renamed: %s"), error->message);
    bw_tell (deeds->panel, GTK_MESSAGE_ERROR, words);
  }
  show_anew (deeds, name);
}

static void
rename_it (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Deeds *deeds = data;
  g_autofree char *question = g_strdup_printf (_ ("Rename “%s”?"), deeds->name);
  bw_name_motif_ask (window_of (deeds), question, _ ("_Rename"), deeds->name, named, deeds, NULL);
}

/* --- Removed -----------------------------------------------------------------------------------
 */

static void
remove_answered (GtkDialog *dialog, int answer, Deeds *deeds)
{
  g_autoptr (GtkDialog) held = g_object_ref (dialog);
  g_autoptr (GError) error = NULL;
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (answer != GTK_RESPONSE_ACCEPT)
    return;
  if (!bw_own_motif_remove (deeds->name, &error)) {
    g_autofree char *words
        = g_strdup_printf (_ ("The motif could not be removed: %s"), error->message);
    bw_tell (deeds->panel, GTK_MESSAGE_ERROR, words);
  }
  show_anew (deeds, NULL);
}

static void
remove_it (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Deeds *deeds = data;
  g_autofree char *question
      = g_strdup_printf (_ ("Remove “%s” from your own motifs?"), deeds->name);
  bw_ask_sure (window_of (deeds), question,
               _ ("Bands that it was laid on keep their beads. The motif itself is gone."),
               _ ("_Cancel"), _ ("_Remove"), G_CALLBACK (remove_answered), deeds);
}

/* --- From and to other makers ------------------------------------------------------------------
 */

static void
write_out (GFile *file, gpointer data)
{
  Deeds *deeds = data;
  g_autoptr (GError) error = NULL;
  bw_own_motif_export (deeds->name, file, &error);
  bw_tell_file_written (deeds->panel, file, error);
}

static void
export_it (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Deeds *deeds = data;
  g_autofree char *name = bw_file_name_for (deeds->name, BW_FILES_MOTIF);
  bw_file_dialog_save (window_of (deeds), BW_FILES_MOTIF, name, NULL, write_out, deeds);
}

static void
take_in (GFile *file, gpointer data)
{
  Deeds *deeds = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = bw_own_motif_read_in (file, &error);
  if (name)
    show_anew (deeds, name);
  else
    bw_tell_file_failure (deeds->panel, BW_FILE_OPENED, file, error);
}

static void
read_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_file_dialog_open (window_of (data), BW_FILES_MOTIF, take_in, data);
}

/* --- Asked for ---------------------------------------------------------------------------------
 */

static void
speak_of (Deeds *deeds, GtkFlowBoxChild *child)
{
  g_free (deeds->name);
  deeds->name = g_strdup (bw_own_deeds_name (child));
}

static void
open_menu (Deeds *deeds, GtkFlowBoxChild *child, double x, double y)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  speak_of (deeds, child);
  bw_menu_add (menu, _ ("Rename…"), "own.rename");
  bw_menu_add (menu, _ ("Export…"), "own.export");
  bw_menu_add (menu, _ ("Remove…"), "own.remove");
  bw_menu_open_at (deeds->panel, GTK_WIDGET (child), x, y, G_MENU_MODEL (menu));
}

static void
menu_at (Deeds *deeds, double x, double y)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_pos (deeds->box, (int)x, (int)y);
  double child_x = 0, child_y = 0;
  if (!child)
    return;
  gtk_widget_translate_coordinates (GTK_WIDGET (deeds->box), GTK_WIDGET (child), x, y, &child_x,
                                    &child_y);
  gtk_widget_grab_focus (GTK_WIDGET (child));
  open_menu (deeds, child, child_x, child_y);
}

static void
pressed_long (Deeds *deeds, double x, double y, GtkGesture *press)
{
  gtk_gesture_set_state (press, GTK_EVENT_SEQUENCE_CLAIMED);
  menu_at (deeds, x, y);
}

static void
right_released (Deeds *deeds, int n_press, double x, double y)
{
  menu_at (deeds, x, y);
}

static gboolean
key_pressed (Deeds *deeds, guint key, guint code, GdkModifierType state)
{
  GtkFlowBoxChild *child = child_with_focus (deeds);
  if (!child)
    return FALSE;
  speak_of (deeds, child);
  if (bw_menu_is_key (key, state))
    open_menu (deeds, child, 0, gtk_widget_get_height (GTK_WIDGET (child)));
  else if (key == GDK_KEY_F2)
    rename_it (NULL, NULL, deeds);
  else if (key == GDK_KEY_Delete || key == GDK_KEY_KP_Delete)
    remove_it (NULL, NULL, deeds);
  else
    return FALSE;
  return TRUE;
}

static void
add_controllers (Deeds *deeds)
{
  GtkWidget *box = GTK_WIDGET (deeds->box);
  GtkGesture *right = gtk_gesture_click_new (), *held = gtk_gesture_long_press_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (right), GDK_BUTTON_SECONDARY);
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (held), TRUE);
  g_signal_connect_swapped (right, "released", G_CALLBACK (right_released), deeds);
  g_signal_connect_swapped (held, "pressed", G_CALLBACK (pressed_long), deeds);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), deeds);
  gtk_widget_add_controller (box, GTK_EVENT_CONTROLLER (right));
  gtk_widget_add_controller (box, GTK_EVENT_CONTROLLER (held));
  gtk_widget_add_controller (box, keys);
}

void
bw_own_deeds_attach (GtkWidget *panel, GtkFlowBox *box, void (*changed) (GtkWidget *panel))
{
  static const GActionEntry entries[] = { { "rename", rename_it },
                                          { "remove", remove_it },
                                          { "export", export_it },
                                          { "read-in", read_in } };
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();
  Deeds *deeds = g_new0 (Deeds, 1);
  *deeds = (Deeds){ panel, box, changed, NULL };
  g_object_set_data_full (G_OBJECT (box), "deeds", deeds, deeds_free);
  g_action_map_add_action_entries (G_ACTION_MAP (actions), entries, G_N_ELEMENTS (entries), deeds);
  gtk_widget_insert_action_group (panel, "own", G_ACTION_GROUP (actions));
  add_controllers (deeds);
}
