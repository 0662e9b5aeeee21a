/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window owns its parts and alone wires them: a part knows what it is handed, and none of the
 * others. */
#include "config.h"

#include "app/fit/fit-line.h"
#include "app/form/typed.h"
#include "app/draw/draw-stage.h"
#include "app/help/help-window.h"
#include "app/keep/logout-hold.h"
#include "app/keep/opening-bar.h"
#include "app/keep/designs.h"
#include "app/keep/recovery.h"
#include "app/kit/drops.h"
#include "app/kit/fold-handle.h"
#include "app/kit/kept-icons.h"
#include "app/kit/late-menu.h"
#include "app/ask/notice.h"
#include "app/kit/part-names.h"
#include "project/piece-name.h"
#include "app/kit/settings.h"
#include "app/ask/tell.h"
#include "app/kit/tip.h"
#include "app/measure/swatch-dialog.h"
#include "app/shelf/shelf-page.h"
#include "app/window/export.h"
#include "app/window/files.h"
#include "app/window/focus-keeper.h"
#include "app/window/late-stages.h"
#include "app/window/menus.h"
#include "app/window/paper.h"
#include "app/window/place.h"
#include "app/window/stone-panel.h"
#include "app/window/undo-box.h"
#include "app/window/window.h"
#include "app/hands/done-dialog.h"
#include "app/ways/ways-window.h"

#include <glib/gi18n-lib.h>

#define SHORTCUTS_PX 400 /* at the least, of the window of shortcuts */

struct _BwWindow {
  GtkApplicationWindow parent_instance;
  BwSession *session;
  BwDraft *draft;
  BwProject *project;
  BwRecovery *recovery;
  BwLogoutHold logout;
  BwFiles *files;
  BwExport *export;
  BwPaperwork *paperwork;

  GtkLabel *title;
  GtkLabel *state;
  BwUndoBox *undo;
  BwOpeningBar *opening;
  BwNotice *notice;
  GtkWidget *switcher;
  GtkWidget *to_shelf;
  GtkWidget *from_shelf;
  GtkLabel *way_back;
  GtkWidget *shelf_title;
  GtkStack *pages;
  GtkPaned *paned;
  BwShelfPage *shelf; /* NULL until it is asked for */
  gboolean begun;     /* some work was shown in this window */
  GPtrArray *at_rest; /* names of commands that wait while the shelf is shown */
  GtkStack *stages;
  BwFoldHandle *fold;
  BwStonePanel *stone;
  BwFitLine *fit;
  GtkMenuButton *menu;
  GMenu *main_menu;
  GMenu *recent_menu;
  GMenu *demo_menu;
};

G_DEFINE_FINAL_TYPE (BwWindow, bw_window, GTK_TYPE_APPLICATION_WINDOW)

static gboolean
is_at_shelf (BwWindow *self)
{
  return self->at_rest != NULL;
}

/* What waits in a field is in no file either; what was refused has changed nothing. */
static gboolean
has_unsaved (BwWindow *self)
{
  return bw_project_get_modified (self->project) || bw_draft_holds_work (self->draft);
}

static const char *
state_words (BwWindow *self)
{
  if (has_unsaved (self))
    return _ ("not saved");
  return bw_project_get_file (self->project) ? _ ("saved") : _ ("new");
}

static void
show_title (BwWindow *self)
{
  g_autofree char *name = bw_piece_name (self->project);
  g_autofree char *full
      = g_strdup_printf (has_unsaved (self) ? "• %s — %s" : "%s — %s", name, _ ("Bandwright"));
  gtk_window_set_title (GTK_WINDOW (self), full);
  gtk_label_set_text (self->title, name);
  bw_tip_set (GTK_WIDGET (self->title), name);
  gtk_label_set_text (self->state, state_words (self));
}

static void
project_changed (BwWindow *self, guint what)
{
  if (what & BW_CHANGED_TITLE)
    show_title (self);
}

static void
hold_logout (BwWindow *self, gboolean unsaved)
{
  g_autofree char *name = bw_piece_name (self->project);
  bw_logout_hold (&self->logout, GTK_WINDOW (self), unsaved, name);
}

/* Behind its last step the project is no longer what was told of it. */
static void
history_changed (BwWindow *self)
{
  if (bw_project_can_redo (self->project))
    bw_notice_outdate (self->notice);
  show_title (self);
  hold_logout (self, has_unsaved (self));
}

/* What waits comes and goes. */
static void
draft_changed (BwWindow *self)
{
  if (self->project)
    history_changed (self);
}

static void
recovery_failed (BwWindow *self, const char *sentence)
{
  bw_notice_tell (self->notice, GTK_MESSAGE_WARNING, sentence);
}

/* leftover: the copy that the project was recovered from, or NULL. */
static void
follow_project (BwWindow *self, BwProject *project, BwLeftover *leftover)
{
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  if (self->recovery)
    bw_recovery_end (self->recovery);
  g_clear_object (&self->recovery);
  g_set_object (&self->project, project);
  g_signal_connect_swapped (project, "changed", G_CALLBACK (project_changed), self);
  g_signal_connect_swapped (project, "history", G_CALLBACK (history_changed), self);
  self->recovery = bw_recovery_new (project, leftover);
  g_signal_connect_object (self->recovery, "failed", G_CALLBACK (recovery_failed), self,
                           G_CONNECT_SWAPPED);
  bw_recovery_keep (self->recovery);
  history_changed (self);
}

void
bw_window_set_project (BwWindow *self, BwProject *project)
{
  g_return_if_fail (BW_IS_WINDOW (self) && BW_IS_PROJECT (project));
  bw_session_set_project (self->session, project);
  follow_project (self, project, NULL);
  bw_notice_clear (self->notice);
}

void
bw_window_keep_work (BwWindow *self)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  bw_typed_take (GTK_WIDGET (self));
  bw_draft_settle (self->draft);
  bw_recovery_keep (self->recovery);
}

/* Nothing to go back or forward to: what is shown can be had again as it is by opening it. */
static gboolean
is_as_opened (BwWindow *self)
{
  return !bw_project_can_undo (self->project) && !bw_project_can_redo (self->project);
}

gboolean
bw_window_makes_way (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), FALSE);
  if (has_unsaved (self))
    return FALSE;
  return !bw_project_get_file (self->project) || (is_at_shelf (self) && is_as_opened (self));
}

void
bw_window_tell (BwWindow *self, GtkMessageType type, const char *sentence)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  bw_notice_tell (self->notice, type, sentence);
}

/* --- The shelf ---------------------------------------------------------------------------------
 */

/* At the bench the row in hand wants the room; the shelf wants all of it. */
static void
show_fit_line (BwWindow *self)
{
  const char *shown = gtk_stack_get_visible_child_name (self->stages);
  if (self->fit)
    gtk_widget_set_visible (GTK_WIDGET (self->fit),
                            !is_at_shelf (self) && g_strcmp0 (shown, "bench") != 0);
}

/* What can be done without seeing the work. */
static gboolean
is_for_the_shelf (const char *action)
{
  static const char *const names[] = { "shelf",
                                       "shelf-back",
                                       "shelf-forget",
                                       "new-stone",
                                       "open",
                                       "open-file",
                                       "open-demo",
                                       "restone-file",
                                       "stage",
                                       "close",
                                       "show-help-overlay",
                                       "guide",
                                       "help",
                                       BW_TELL_ACTION,
                                       NULL };
  return g_strv_contains (names, action);
}

/* Nobody prints, undoes or saves what is out of sight. */
static void
rest_commands (BwWindow *self)
{
  g_auto (GStrv) names = g_action_group_list_actions (G_ACTION_GROUP (self));
  self->at_rest = g_ptr_array_new_with_free_func (g_free);
  for (char **name = names; *name; name++) {
    GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), *name);
    if (is_for_the_shelf (*name) || !G_IS_SIMPLE_ACTION (action) || !g_action_get_enabled (action))
      continue;
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), FALSE);
    g_ptr_array_add (self->at_rest, g_strdup (*name));
  }
}

static void
wake_commands (BwWindow *self)
{
  for (guint i = 0; i < self->at_rest->len; i++) {
    const char *name = g_ptr_array_index (self->at_rest, i);
    GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), TRUE);
  }
  g_clear_pointer (&self->at_rest, g_ptr_array_unref);
}

/* Work that waits behind the shelf has a way back to it. */
static void
show_way_back (BwWindow *self, gboolean at_shelf)
{
  g_autofree char *name = bw_piece_name (self->project);
  g_autofree char *words = g_strdup_printf (_ ("Back to “%s”"), name);
  gtk_label_set_text (self->way_back, words);
  gtk_widget_set_visible (self->from_shelf, at_shelf && self->begun);
}

static void
dress_for_shelf (BwWindow *self, gboolean at_shelf)
{
  gtk_widget_set_visible (self->switcher, !at_shelf);
  gtk_widget_set_visible (self->shelf_title, at_shelf);
  gtk_widget_set_visible (self->to_shelf, !at_shelf);
  gtk_widget_set_visible (GTK_WIDGET (self->undo), !at_shelf);
  gtk_widget_set_visible (GTK_WIDGET (self->title), !at_shelf);
  gtk_widget_set_visible (GTK_WIDGET (self->state), !at_shelf);
  show_way_back (self, at_shelf);
  gtk_stack_set_visible_child_name (self->pages, at_shelf ? "shelf" : "work");
  show_fit_line (self);
}

static void
leave_shelf (BwWindow *self)
{
  if (!is_at_shelf (self))
    return;
  wake_commands (self);
  dress_for_shelf (self, FALSE);
  gtk_widget_child_focus (GTK_WIDGET (self->stages), GTK_DIR_TAB_FORWARD);
}

void
bw_window_show_shelf (BwWindow *self)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  if (is_at_shelf (self))
    return;
  self->begun = gtk_widget_get_mapped (GTK_WIDGET (self->paned));
  bw_typed_take (GTK_WIDGET (self));
  bw_draft_settle (self->draft);
  if (!self->shelf) {
    self->shelf = BW_SHELF_PAGE (bw_shelf_page_new ());
    gtk_stack_add_named (self->pages, GTK_WIDGET (self->shelf), "shelf");
  }
  rest_commands (self);
  dress_for_shelf (self, TRUE);
}

/* On the Hang stage the piece hangs. To go to a stage is to leave the shelf. */
static void
stage_changed (BwWindow *self)
{
  const char *shown = gtk_stack_get_visible_child_name (self->stages);
  leave_shelf (self);
  show_fit_line (self);
  if (self->stone)
    bw_stone_panel_set_hanging (self->stone, g_strcmp0 (shown, "hang") == 0);
}

void
bw_window_show_stage (BwWindow *self, const char *name)
{
  g_return_if_fail (BW_IS_WINDOW (self));
  gtk_stack_set_visible_child_name (self->stages, name);
}

BwSession *
bw_window_get_session (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->session;
}

BwDraft *
bw_window_get_draft (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->draft;
}

BwProject *
bw_window_get_project (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), NULL);
  return self->project;
}

static gboolean
bw_window_close_request (GtkWindow *window)
{
  BwWindow *self = BW_WINDOW (window);
  if (bw_files_hold_close (self->files))
    return TRUE;
  bw_place_keep (window, self->paned);
  hold_logout (self, FALSE);
  bw_recovery_end (self->recovery);
  return GTK_WINDOW_CLASS (bw_window_parent_class)->close_request (window);
}

void
bw_window_open (BwWindow *self, GFile *file)
{
  g_return_if_fail (BW_IS_WINDOW (self) && G_IS_FILE (file));
  bw_files_open (self->files, file);
}

gboolean
bw_window_is_opening (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), FALSE);
  return bw_opening_bar_is_busy (self->opening);
}

gboolean
bw_window_close_for_quit (BwWindow *self)
{
  g_return_val_if_fail (BW_IS_WINDOW (self), FALSE);
  return bw_files_close_for_quit (self->files);
}

/* --- What the files ask of us ------------------------------------------------------------------
 */

/* The file may have another name there, by a link. */
static gboolean
shows_file (BwWindow *self, GFile *file, const BwStamp *stamp)
{
  GFile *own = bw_project_get_file (self->project);
  return own
         && (g_file_equal (own, file)
             || bw_stamp_same_file (bw_project_get_stamp (self->project), stamp));
}

static GtkWindow *
find_window (GtkWindow *window, GFile *file, const BwStamp *stamp)
{
  GtkApplication *application = gtk_window_get_application (window);
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (BW_IS_WINDOW (item->data) && shows_file (item->data, file, stamp))
      return item->data;
  return NULL;
}

/* A piece that is being woven is taken up where it was laid down. */
static void
show_where_work_is (BwWindow *self)
{
  if (bw_project_get_rows_done (bw_window_get_project (self)) > 0)
    bw_window_show_stage (self, "make");
}

static GtkWindow *
show_opened (GtkWindow *window, BwProject *project)
{
  BwWindow *self = BW_WINDOW (window);
  gboolean makes_way = bw_window_makes_way (self);
  leave_shelf (self);
  if (makes_way)
    bw_window_set_project (self, project);
  else
    self = bw_window_new (gtk_window_get_application (window), project);
  show_where_work_is (self);
  gtk_window_present (GTK_WINDOW (self));
  /* A key pressed by chance is no measurement of a stone that was measured already. */
  if (bw_project_get_file (project))
    gtk_widget_child_focus (self->switcher, GTK_DIR_TAB_FORWARD);
  return GTK_WINDOW (self);
}

static void
measure (GtkWindow *window, BwProject *project)
{
  bw_window_show_stage (BW_WINDOW (show_opened (window, project)), "measure");
}

static void
come (GtkWindow *window)
{
  leave_shelf (BW_WINDOW (window));
  gtk_window_present (window);
}

static void
replace (GtkWindow *window, BwProject *project)
{
  bw_window_set_project (BW_WINDOW (window), project);
}

static gboolean
lay_aside (GtkWindow *window, GError **error)
{
  return bw_recovery_lay_work_aside (BW_WINDOW (window)->recovery, error);
}

static void
saved (GtkWindow *window)
{
  BwWindow *self = BW_WINDOW (window);
  bw_recovery_keep (self->recovery);
  bw_notice_clear (self->notice);
  show_title (self);
}

static const BwFilesOwner files_owner
    = { find_window, show_opened, measure, come, replace, lay_aside, saved };

/* --- After a crash -----------------------------------------------------------------------------
 */

/* The window that shows the file has work of its own: neither is to lose. */
static GtkWindow *
show_apart (GtkWindow *window, BwProject *project)
{
  bw_project_set_file (project, NULL);
  BwWindow *apart = bw_window_new (gtk_window_get_application (window), project);
  bw_window_tell (apart, GTK_MESSAGE_WARNING,
                  _ ("Its file is open in another window, with changes that are not saved. Save "
                     "this under another name."));
  return GTK_WINDOW (apart);
}

static GtkWindow *
window_for_recovered (GtkWindow *window, BwProject *project)
{
  GFile *file = bw_project_get_file (project);
  GtkWindow *shown = file ? find_window (window, file, bw_project_get_stamp (project)) : NULL;
  if (!shown)
    return show_opened (window, project);
  BwWindow *self = BW_WINDOW (shown);
  if (has_unsaved (self))
    return show_apart (window, project);
  return shown;
}

void
bw_window_take_recovered (BwWindow *self, BwProject *project, BwLeftover *leftover)
{
  g_return_if_fail (BW_IS_WINDOW (self) && BW_IS_PROJECT (project));
  BwWindow *window = BW_WINDOW (window_for_recovered (GTK_WINDOW (self), project));
  bw_session_set_project (window->session, project);
  follow_project (window, project, leftover);
  gtk_window_present (GTK_WINDOW (window));
}

/* A picture is for the band; anything else may be a project under another name. */
static void
dropped (GtkWidget *widget, GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *type = g_content_type_guess (name, NULL, 0, NULL);
  if (g_content_type_is_a (type, "image/*"))
    bw_tell (widget, GTK_MESSAGE_WARNING,
             _ ("A picture is laid on the band: drop it there, on the Draw stage."));
  else
    bw_drops_open (widget, file);
}

/* --- Our own commands --------------------------------------------------------------------------
 */

static void
close_window (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (data);
}

static void
zoom_by (BwWindow *self, double factor)
{
  bw_draw_stage_zoom (BW_DRAW_STAGE (bw_late_stages_get (self->stages, "draw")), factor);
}

static void
zoom_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  zoom_by (data, 1.25);
}

static void
zoom_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  zoom_by (data, 1 / 1.25);
}

static void
zoom_fit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  zoom_by (data, 0);
}

static void
shelf (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  bw_window_show_shelf (data);
}

static void
shelf_back (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  if (self->begun)
    leave_shelf (self);
}

static void
shelf_forget (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  bw_designs_forget (bw_designs_get (), file);
}

/* In this window as long as nothing would make way for it. */
static void
new_stone (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  gboolean makes_way = bw_window_makes_way (self);
  if (!makes_way || bw_project_get_file (self->project)) {
    g_action_group_activate_action (G_ACTION_GROUP (gtk_window_get_application (GTK_WINDOW (self))),
                                    makes_way ? "new-stone" : "new", NULL);
    return;
  }
  leave_shelf (self);
  bw_window_show_stage (self, "measure");
}

/* The bench helper is a stage of its own, come to from Make and left to it. The key that was for
 * the next row must not find the card's buttons then. */
static void
bench (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  const char *shown = gtk_stack_get_visible_child_name (self->stages);
  bw_typed_take (GTK_WIDGET (self));
  bw_draft_settle (self->draft);
  gboolean leaves = g_strcmp0 (shown, "bench") == 0;
  bw_window_show_stage (self, leaves ? "make" : "bench");
  if (leaves)
    gtk_widget_child_focus (self->switcher, GTK_DIR_TAB_FORWARD);
}

/* Asked for at the foot of the window: a swatch betters the odds of every count. */
static void
swatch (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_typed_take (GTK_WIDGET (self));
  bw_swatch_dialog_show (GTK_WINDOW (self), self->draft);
}

static void
ways (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_typed_take (GTK_WIDGET (self));
  bw_ways_window_show (GTK_WINDOW (self), self->draft);
}

static void
finished (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  bw_typed_take (GTK_WIDGET (self));
  bw_done_dialog_show (GTK_WINDOW (self), self->draft);
}

static void
tell (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  int type;
  const char *sentence;
  g_variant_get (parameter, "(i&s)", &type, &sentence);
  bw_window_tell (self, type, sentence);
}

/* About what is in front of the maker. */
static void
help (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  BwWindow *self = data;
  static const char *const pages[][2] = { { "measure", "measuring" },
                                          { "draw", "drawing" },
                                          { "hang", "hanging" },
                                          { "make", "bench" },
                                          { "bench", "bench" } };
  const char *shown = gtk_stack_get_visible_child_name (self->stages), *page = "ten-minutes";
  for (gsize i = 0; !is_at_shelf (self) && i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i][0], shown) == 0)
      page = pages[i][1];
  bw_help_show (gtk_window_get_application (GTK_WINDOW (self)), page);
}

/* Made when first asked for: the toolkit would make it with every window, before it is seen. From
 * then on the toolkit's own action of this name shows it. */
/* The toolkit's own window is as large as all it lists, larger than many screens: what is beyond
 * the window it stands over is scrolled to. */
static void
scroll_shortcuts (BwWindow *self, GtkWindow *shortcuts)
{
  g_autoptr (GtkWidget) list = g_object_ref (gtk_window_get_child (shortcuts));
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_window_set_child (shortcuts, NULL);
  g_object_set (scroller, "propagate-natural-width", TRUE, "propagate-natural-height", TRUE,
                "max-content-width", MAX (gtk_widget_get_width (GTK_WIDGET (self)), SHORTCUTS_PX),
                "max-content-height",
                MAX (gtk_widget_get_height (GTK_WIDGET (self)) * 4 / 5, SHORTCUTS_PX), "child",
                list, NULL);
  gtk_window_set_child (shortcuts, scroller);
}

static void
show_shortcuts (GSimpleAction *action, GVariant *parameter, gpointer self)
{
  g_autoptr (GtkBuilder) builder
      = gtk_builder_new_from_resource ("/io/github/bandwright/Bandwright/help-overlay.ui");
  GObject *shortcuts = gtk_builder_get_object (builder, "help_overlay");
  gtk_application_window_set_help_overlay (GTK_APPLICATION_WINDOW (self),
                                           GTK_SHORTCUTS_WINDOW (shortcuts));
  scroll_shortcuts (self, GTK_WINDOW (shortcuts));
  gtk_window_present (GTK_WINDOW (shortcuts));
}

static void
add_actions (BwWindow *self)
{
  static const GActionEntry entries[] = {
    { BW_TELL_ACTION, tell, "(is)" },
    { "bench", bench },
    { "help", help },
    { "show-help-overlay", show_shortcuts },
    { "close", close_window },
    { "zoom-in", zoom_in },
    { "zoom-out", zoom_out },
    { "zoom-fit", zoom_fit },
    { "shelf", shelf },
    { "shelf-back", shelf_back },
    { "new-stone", new_stone },
    { "swatch", swatch },
    { "shelf-forget", shelf_forget, "s" },
    { "ways", ways },
    { "finished", finished },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_autoptr (GPropertyAction) stage
      = g_property_action_new ("stage", self->stages, "visible-child-name");
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (stage));
}

/* The lamp is a preference: every window's stone view follows it. */
static void
follow_light (BwWindow *self)
{
  gboolean lamp = bw_settings_get_flag (bw_settings_get (), "lamp-light");
  bw_session_set_light (self->session, lamp ? BW_LIGHT_LAMP : BW_LIGHT_DAY);
}

static void
bw_window_dispose (GObject *object)
{
  BwWindow *self = BW_WINDOW (object);
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  if (self->project)
    hold_logout (self, FALSE);
  /* It holds the stages, and menus among them hold the window's actions: a circle. */
  g_action_map_remove_action (G_ACTION_MAP (self), "stage");
  g_clear_pointer (&self->at_rest, g_ptr_array_unref);
  g_clear_object (&self->files);
  g_clear_object (&self->export);
  g_clear_object (&self->paperwork);
  g_clear_object (&self->recovery);
  g_clear_object (&self->project);
  g_clear_object (&self->draft);
  G_OBJECT_CLASS (bw_window_parent_class)->dispose (object);
}

static void
bw_window_finalize (GObject *object)
{
  g_clear_object (&BW_WINDOW (object)->session);
  G_OBJECT_CLASS (bw_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, state);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, undo);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, opening);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, notice);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, switcher);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, to_shelf);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, from_shelf);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, way_back);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, shelf_title);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, paned);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, stages);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, fold);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, stone);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, fit);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, menu);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, main_menu);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, recent_menu);
  gtk_widget_class_bind_template_child (widget_class, BwWindow, demo_menu);
  gtk_widget_class_bind_template_callback (widget_class, stage_changed);
}

static void
bw_window_class_init (BwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_window_finalize;
  GTK_WINDOW_CLASS (klass)->close_request = bw_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/window.ui");
  bind_children (widget_class);
}

/* Each stage as wide as its own word: all as wide as the longest take more than a small screen has
 * where text is large. */
static void
narrow_switcher (BwWindow *self)
{
  GtkLayoutManager *row = gtk_widget_get_layout_manager (self->switcher);
  if (GTK_IS_BOX_LAYOUT (row))
    gtk_box_layout_set_homogeneous (GTK_BOX_LAYOUT (row), FALSE);
}

static void
bw_window_init (BwWindow *self)
{
  g_type_ensure (BW_TYPE_UNDO_BOX);
  g_type_ensure (BW_TYPE_OPENING_BAR);
  g_type_ensure (BW_TYPE_NOTICE);
  g_type_ensure (BW_TYPE_FOLD_HANDLE);
  g_type_ensure (BW_TYPE_STONE_PANEL);
  g_type_ensure (BW_TYPE_FIT_LINE);
  gtk_widget_init_template (GTK_WIDGET (self));
  narrow_switcher (self);
  add_actions (self);
  bw_recent_menu_follow (self->recent_menu);
  bw_demo_menu_fill (self->demo_menu);
  bw_place_take (GTK_WINDOW (self), self->paned);
  bw_fold_handle_say (self->fold, TRUE, _ ("Fold the stone away"), _ ("Bring the stone back"),
                      "F9");
  g_object_bind_property (bw_settings_get (), "stone-folded", self->stone, "visible",
                          G_BINDING_SYNC_CREATE | G_BINDING_INVERT_BOOLEAN);
  bw_drops_take (GTK_WIDGET (self), dropped);
  bw_late_menu_give (self->menu, G_MENU_MODEL (self->main_menu));
  bw_focus_keep (GTK_WINDOW (self));
  bw_kept_icons_follow (GTK_WIDGET (self));
}

static void
bind_parts (BwWindow *self)
{
  GtkApplicationWindow *window = GTK_APPLICATION_WINDOW (self);
  self->files = bw_files_new (window, self->draft, self->opening, &files_owner);
  self->export = bw_export_new (window, self->draft);
  self->paperwork = bw_paperwork_new (window, self->draft);
  bw_undo_box_bind (self->undo, self->draft, G_ACTION_MAP (self));
  bw_late_stages_take (self->stages, self->draft);
  bw_stone_panel_bind (self->stone, self->session);
  bw_fit_line_bind (self->fit, self->draft);
}

BwWindow *
bw_window_new (GtkApplication *application, BwProject *project)
{
  BwWindow *self = g_object_new (BW_TYPE_WINDOW, "application", application, NULL);
  self->session = bw_session_new (project);
  self->draft = bw_draft_new (self->session);
  follow_light (self);
  g_signal_connect_object (bw_settings_get (), "notify::lamp-light", G_CALLBACK (follow_light),
                           self, G_CONNECT_SWAPPED);
  follow_project (self, project, NULL);
  g_signal_connect_object (self->draft, "changed", G_CALLBACK (draft_changed), self,
                           G_CONNECT_SWAPPED);
  bind_parts (self);
  bw_part_names_give (GTK_WIDGET (self));
  return self;
}
