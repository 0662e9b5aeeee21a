/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame round the canvas: which tool is in hand, how near the band is, what lies under the
 * pointer. */
#include "config.h"

#include "app/form/card.h"
#include "app/draw/band-menu.h"
#include "app/draw/draw-stage.h"
#include "app/draw/save-motif.h"
#include "app/draw/woven-question.h"
#include "app/kit/menu-at.h"
#include "app/form/field-entry.h"
#include "app/kit/settings.h"
#include "app/draw/symmetry-button.h"
#include "app/draw/tool-strip.h"
#include "app/draw/side-panel.h"
#include "app/draw/zoom-box.h"
#include "app/kit/fold-handle.h"
#include "app/kit/named-icon.h"
#include "editor/band/band-canvas.h"
#include "editor/band/band-overview.h"

#include <glib/gi18n-lib.h>

struct _BwDrawStage {
  GtkWidget parent_instance;
  BwSession *session;
  BwBandCanvas *canvas;
  BwSidePanel *side;
  GtkBox *place;
  BwFoldHandle *fold;
  BwToolStrip *tools;
  BwSymmetryButton *symmetry;
  GtkWidget *selection;
  GtkWidget *letters;
  BwZoomBox *zoom;
  GtkLabel *status;
  BwBeadAt menu_bead; /* the one whose menu opened last */
};

G_DEFINE_FINAL_TYPE (BwDrawStage, bw_draw_stage, GTK_TYPE_WIDGET)

static void
show_status (BwDrawStage *self, const char *words)
{
  gtk_label_set_text (self->status, words && *words ? words : _ ("Point at a bead"));
}

/* What the menu of the selection does; the canvas has the keyboard again afterwards, so that a
 * piece pasted can be walked about. */
static void
do_deed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  static const struct {
    const char *action;
    BwBandDeed deed;
  } deeds[] = {
    { "beads.copy", BW_BAND_COPY },
    { "beads.cut", BW_BAND_CUT },
    { "beads.paste", BW_BAND_PASTE },
    { "beads.erase", BW_BAND_ERASE },
    { "beads.select-all", BW_BAND_SELECT_ALL },
    { "beads.select-none", BW_BAND_SELECT_NONE },
    { "beads.lift", BW_BAND_LIFT },
    { "beads.lift-copy", BW_BAND_LIFT_COPY },
    { "beads.flip-round", BW_BAND_FLIP_ROUND },
    { "beads.flip-up", BW_BAND_FLIP_UP },
    { "beads.turn", BW_BAND_TURN },
  };
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++)
    if (g_str_equal (deeds[i].action, action))
      bw_band_canvas_do (self->canvas, deeds[i].deed);
}

/* --- The menu of a bead ------------------------------------------------------------------------
 */

static void
open_menu (BwDrawStage *self, double x, double y, int row, int column)
{
  g_autoptr (GMenuModel) menu = bw_band_menu_new (self->session, row, column);
  self->menu_bead = (BwBeadAt){ row, column };
  bw_menu_open_at (GTK_WIDGET (self), GTK_WIDGET (self->canvas), x, y, menu);
}

static void
pick_up (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  bw_band_canvas_pick_up (self->canvas, self->menu_bead.row, self->menu_bead.column);
}

static void
select_colour (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  const BwDrawing *drawing = bw_project_get_drawing (bw_session_get_project (self->session));
  BwRegion *region = bw_region_new (bw_drawing_columns (drawing), bw_drawing_rows (drawing));
  bw_region_add_colour (region, drawing,
                        bw_drawing_get (drawing, self->menu_bead.row, self->menu_bead.column));
  bw_session_take_selection (self->session, region);
}

/* The whole row or column whose number the menu was opened on. */
static BwRegion *
menu_line (BwDrawStage *self)
{
  const BwDrawing *drawing = bw_project_get_drawing (bw_session_get_project (self->session));
  int columns = bw_drawing_columns (drawing), rows = bw_drawing_rows (drawing);
  BwRegion *region = bw_region_new (columns, rows);
  BwBeadAt at = self->menu_bead;
  if (at.column > 0)
    bw_region_add_box (region, 1, rows, at.column, at.column);
  else
    bw_region_add_box (region, at.row, at.row, 1, columns);
  return region;
}

static void
select_line (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  bw_session_take_selection (self->session, menu_line (self));
}

static void
fill_line (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  g_autoptr (BwRegion) line = menu_line (self);
  bw_band_canvas_fill (self->canvas, line);
}

static void
lock_column (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  bw_band_canvas_lock (self->canvas, self->menu_bead.column);
}

static void
unlock_all (GtkWidget *widget, const char *action, GVariant *parameter)
{
  bw_session_unlock_all (BW_DRAW_STAGE (widget)->session);
}

static void
motif_saved (gboolean saved, const char *sentence, gpointer data)
{
  BwDrawStage *self = data;
  bw_band_canvas_say (self->canvas, sentence);
  if (saved)
    bw_side_panel_look_at_own (self->side);
}

static void
save_motif (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  if (bw_session_get_selection (self->session))
    bw_save_motif_ask (GTK_WINDOW (gtk_widget_get_root (widget)), self->session, motif_saved, self);
  else
    bw_band_canvas_say (self->canvas, _ ("Nothing is selected."));
}

static void
install_menu (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "beads.pick", NULL, pick_up);
  gtk_widget_class_install_action (widget_class, "beads.select-colour", NULL, select_colour);
  gtk_widget_class_install_action (widget_class, "beads.select-line", NULL, select_line);
  gtk_widget_class_install_action (widget_class, "beads.fill-line", NULL, fill_line);
  gtk_widget_class_install_action (widget_class, "beads.lock", NULL, lock_column);
  gtk_widget_class_install_action (widget_class, "beads.unlock-all", NULL, unlock_all);
  gtk_widget_class_install_action (widget_class, "beads.save-motif", NULL, save_motif);
}

static void
install_deeds (GtkWidgetClass *widget_class)
{
  static const char *const actions[]
      = { "beads.copy",       "beads.cut",         "beads.paste", "beads.erase",
          "beads.select-all", "beads.select-none", "beads.lift",  "beads.lift-copy",
          "beads.flip-round", "beads.flip-up",     "beads.turn" };
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (widget_class, actions[i], NULL, do_deed);
}

static gboolean
symmetry_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  bw_symmetry_button_open (BW_DRAW_STAGE (widget)->symmetry);
  return TRUE;
}

/* Before lists and number fields, which know these keys too, can take them. */
static gboolean
page_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
          BwDrawStage *self)
{
  if (!(state & GDK_CONTROL_MASK) || (key != GDK_KEY_Page_Up && key != GDK_KEY_Page_Down))
    return FALSE;
  bw_side_panel_turn (self->side, key == GDK_KEY_Page_Up ? -1 : 1);
  return TRUE;
}

/* Between the band and what lies beside it. */
static gboolean
across_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwDrawStage *self = BW_DRAW_STAGE (widget);
  if (gtk_widget_has_focus (GTK_WIDGET (self->canvas)))
    bw_side_panel_turn (self->side, 0);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  return TRUE;
}

static gboolean
fold_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  gboolean folded = bw_settings_get_flag (bw_settings_get (), "tray-folded");
  g_object_set (bw_settings_get (), "tray-folded", !folded, NULL);
  return TRUE;
}

/* Wherever on the stage the maker went on, the piece that was laid down by that comes back. */
static gboolean
take_up_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  return bw_band_canvas_take_up (BW_DRAW_STAGE (widget)->canvas);
}

/* What is copied or turned is of the band wherever on the stage the keyboard is. Only a field of
 * text has something of its own to copy: it hears its keys first, but does not always say that it
 * took them. */
static gboolean
is_in_text (GtkWidget *widget)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  return GTK_IS_TEXT (focus) || GTK_IS_TEXT_VIEW (focus);
}

static gboolean
deed_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  const char *action;
  gboolean of_text;
  g_variant_get (args, "(&sb)", &action, &of_text);
  return !(of_text && is_in_text (widget))
         && gtk_widget_activate_action_variant (widget, action, NULL);
}

static void
install_deed_keys (GtkWidgetClass *widget_class)
{
  static const struct {
    guint key;
    GdkModifierType shift;
    const char *action;
    gboolean of_text; /* text knows the same key */
  } keys[] = {
    { GDK_KEY_c, 0, "beads.copy", TRUE },
    { GDK_KEY_x, 0, "beads.cut", TRUE },
    { GDK_KEY_v, 0, "beads.paste", TRUE },
    { GDK_KEY_a, 0, "beads.select-all", TRUE },
    { GDK_KEY_a, GDK_SHIFT_MASK, "beads.select-none", TRUE },
    { GDK_KEY_r, 0, "beads.flip-round", FALSE },
    { GDK_KEY_u, 0, "beads.flip-up", FALSE },
    { GDK_KEY_t, 0, "beads.turn", FALSE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding (widget_class, keys[i].key, GDK_CONTROL_MASK | keys[i].shift,
                                  deed_key, "(sb)", keys[i].action, keys[i].of_text);
}

/* A colour's letter and a tool's digit that nothing nearer wanted mean the same as on the band. */
static gboolean
letter_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
            BwDrawStage *self)
{
  gunichar letter = gdk_keyval_to_unicode (key);
  if (!self->canvas || gtk_widget_has_focus (GTK_WIDGET (self->canvas))
      || state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK)
      || !g_unichar_isalnum (letter))
    return FALSE;
  return gtk_event_controller_key_forward (keys, GTK_WIDGET (self->canvas));
}

static void
install_keys (GtkWidgetClass *widget_class)
{
  install_deed_keys (widget_class);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_m, GDK_CONTROL_MASK, symmetry_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, take_up_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_F6, 0, across_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_F8, 0, fold_key, NULL);
}

static gboolean
focus_canvas (gpointer data)
{
  BwDrawStage *self = data;
  if (self->canvas && gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  return G_SOURCE_REMOVE;
}

/* Come to, the band has the keyboard: who comes by a key goes on by keys. Later, because the stack
 * gives the keyboard to the first control of a page it turns to, and yet before the next event:
 * what the maker takes after that is not taken away again. */
static void
bw_draw_stage_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_draw_stage_parent_class)->map (widget);
  g_idle_add_full (G_PRIORITY_HIGH, focus_canvas, g_object_ref (widget), g_object_unref);
}

static void
show_letters (BwDrawStage *self)
{
  bw_band_canvas_set_letters (self->canvas,
                              bw_settings_get_flag (bw_settings_get (), "show-letters"));
}

void
bw_draw_stage_zoom (BwDrawStage *self, double by)
{
  g_return_if_fail (BW_IS_DRAW_STAGE (self));
  if (by > 0)
    bw_band_canvas_set_zoom (self->canvas, bw_band_canvas_get_zoom (self->canvas) * by);
  else
    bw_band_canvas_fit (self->canvas);
}

void
bw_draw_stage_bind (BwDrawStage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_DRAW_STAGE (self) && BW_IS_DRAFT (draft));
  self->session = g_object_ref (bw_draft_get_session (draft));
  self->canvas = BW_BAND_CANVAS (bw_band_canvas_new (self->session));
  gtk_widget_set_hexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->canvas), TRUE);
  gtk_box_append (self->place, bw_side_panel_frame_canvas (self->side, GTK_WIDGET (self->canvas),
                                                           self->session));
  gtk_box_append (self->place, bw_band_overview_new (self->canvas, self->session));
  bw_cards_bind (GTK_WIDGET (self), draft);
  g_signal_connect_object (self->canvas, "status", G_CALLBACK (show_status), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->canvas, "menu", G_CALLBACK (open_menu), self, G_CONNECT_SWAPPED);
  bw_woven_question_watch (GTK_WIDGET (self), self->session);
  g_signal_connect_object (bw_settings_get (), "notify::show-letters", G_CALLBACK (show_letters),
                           self, G_CONNECT_SWAPPED);
  g_object_bind_property (bw_settings_get (), "tray-folded", self->side, "folded",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  bw_tool_strip_bind (self->tools, self->session);
  bw_zoom_box_bind (self->zoom, self->canvas);
  bw_symmetry_button_bind (self->symmetry, self->session);
  g_signal_connect_object (self->symmetry, "closed", G_CALLBACK (gtk_widget_grab_focus),
                           self->canvas, G_CONNECT_SWAPPED);
  show_letters (self);
  show_status (self, NULL);
}

static void
bw_draw_stage_dispose (GObject *object)
{
  BwDrawStage *self = BW_DRAW_STAGE (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  self->canvas = NULL;
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_draw_stage_parent_class)->dispose (object);
}

static void
bw_draw_stage_class_init (BwDrawStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_draw_stage_dispose;
  widget_class->map = bw_draw_stage_map;
  g_type_ensure (BW_TYPE_SIDE_PANEL);
  g_type_ensure (BW_TYPE_FOLD_HANDLE);
  g_type_ensure (BW_TYPE_NAMED_ICON);
  g_type_ensure (BW_TYPE_ZOOM_BOX);
  g_type_ensure (BW_TYPE_TOOL_STRIP);
  g_type_ensure (BW_TYPE_SYMMETRY_BUTTON);
  g_type_ensure (BW_TYPE_FIELD_ENTRY);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/draw-stage.ui");
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, place);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, side);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, tools);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, fold);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, symmetry);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, selection);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, letters);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, zoom);
  gtk_widget_class_bind_template_child (widget_class, BwDrawStage, status);
  install_deeds (widget_class);
  install_menu (widget_class);
  install_keys (widget_class);
}

static void
bw_draw_stage_init (BwDrawStage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_fold_handle_say (self->fold, FALSE, _ ("Fold the tray away"), _ ("Bring the tray back"), "F8");
  bw_tool_strip_add (self->tools, gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  bw_tool_strip_add (self->tools, GTK_WIDGET (self->symmetry));
  bw_tool_strip_add (self->tools, self->selection);
  bw_tool_strip_add (self->tools, self->letters);
  GtkEventController *letters = gtk_event_controller_key_new ();
  GtkEventController *pages = gtk_event_controller_key_new ();
  g_signal_connect (letters, "key-pressed", G_CALLBACK (letter_key), self);
  g_signal_connect (pages, "key-pressed", G_CALLBACK (page_key), self);
  gtk_event_controller_set_propagation_phase (pages, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), letters);
  gtk_widget_add_controller (GTK_WIDGET (self), pages);
}
