/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of colours is the session's colour in hand; the controls under it change that colour. */
#include "config.h"

#include "app/form/typed.h"
#include "app/kit/bead-swatch.h"
#include "app/ask/colour-dialog.h"
#include "app/colours/finish-card.h"
#include "app/colours/tray-choice.h"
#include "app/colours/tray-merge.h"
#include "app/colours/tray-panel.h"
#include "app/kit/tray-row.h"
#include "app/colours/tray-drag.h"
#include "app/colours/tray-words.h"
#include "app/kit/menu-at.h"
#include "app/kit/put-text.h"
#include "app/ask/tell.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/kit/wrap-layout.h"

#include <glib/gi18n-lib.h>

struct _BwTrayPanel {
  BwCard parent_instance;
  BwSession *session;
  GtkListBox *list;
  GtkWidget *details;
  GtkLabel *amount;
  gboolean folded;
  GtkEntry *name;
  GtkEntry *article;
  GtkEntry *in_hand;
  GtkButton *recolour;
  BwBeadSwatch *bead;
  BwFinishCard *finish;
  GtkWidget *up;
  GtkWidget *down;
  GtkMenuButton *remove;
  GtkPopover *question;
  GtkLabel *question_words;
  GtkDropDown *heir;
  GtkWidget *add;
  GtkEntry *letter;
  GtkLabel *letter_problem;
  GtkLabel *alike;
  BwTray looked_at;         /* the tray whose likenesses are shown */
  guint roll;               /* the list is to be rolled; 0: it is not */
  int frames;               /* since that was asked for */
  int in_sight, n_in_sight; /* the colour it was rolled to, of how many */
  GtkWidget *choices;       /* one row where their words are short, two where they are not */
  GtkWidget *merge_button;
  BwTrayMerge *merge;
  BwTrayChoice *choice;
};

G_DEFINE_FINAL_TYPE (BwTrayPanel, bw_tray_panel, BW_TYPE_CARD)

static BwProject *
project_of (BwTrayPanel *self)
{
  return bw_card_get_project (BW_CARD (self));
}

static int
chosen (BwTrayPanel *self)
{
  return bw_session_get_colour (self->session);
}

static void
count_beads (BwTrayPanel *self, guint64 counts[256])
{
  const BwDrawing *bail = bw_project_get_bail_drawing (project_of (self));
  bw_drawing_count (bw_project_get_drawing (project_of (self)), counts);
  if (bail)
    bw_drawing_count (bail, counts);
}

/* Once its row is laid out, which the frame does that follows the first call of this. */
static gboolean
roll_to_chosen (GtkWidget *list, GdkFrameClock *clock, gpointer data)
{
  BwTrayPanel *self = data;
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);
  GtkAdjustment *page = gtk_list_box_get_adjustment (self->list);
  graphene_rect_t place;
  if (self->frames++ == 0)
    return G_SOURCE_CONTINUE;
  self->roll = 0;
  if (row && page && gtk_widget_compute_bounds (GTK_WIDGET (row), list, &place))
    gtk_adjustment_clamp_page (page, (double)place.origin.y,
                               (double)place.origin.y + (double)place.size.height);
  return G_SOURCE_REMOVE;
}

/* The colour in hand is in sight, wherever it was taken in hand; otherwise the list stays where the
 * maker has rolled it. */
static void
show_in_sight (BwTrayPanel *self, int n_colours)
{
  if (self->in_sight == chosen (self) && self->n_in_sight == n_colours)
    return;
  self->in_sight = chosen (self);
  self->n_in_sight = n_colours;
  self->frames = 0;
  if (!self->roll)
    self->roll = gtk_widget_add_tick_callback (GTK_WIDGET (self->list), roll_to_chosen, self, NULL);
}

static void
show_list (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  guint64 counts[256] = { 0 };
  GtkListBoxRow *row;
  count_beads (self, counts);
  for (int i = 0; i < tray->n_colours; i++) {
    row = gtk_list_box_get_row_at_index (self->list, i);
    if (!row) {
      row = GTK_LIST_BOX_ROW (bw_tray_row_new ());
      gtk_list_box_append (self->list, GTK_WIDGET (row));
    }
    bw_tray_row_show (BW_TRAY_ROW (row), &tray->colour[i], counts[i]);
    bw_tray_row_set_folded (BW_TRAY_ROW (row), self->folded);
  }
  while ((row = gtk_list_box_get_row_at_index (self->list, tray->n_colours)))
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  gtk_list_box_select_row (self->list, gtk_list_box_get_row_at_index (self->list, chosen (self)));
  show_in_sight (self, tray->n_colours);
}

/* Only a tray that is another is looked at anew: beads are counted far more often. */
static void
show_alike (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  if (memcmp (tray, &self->looked_at, sizeof *tray) == 0)
    return;
  self->looked_at = *tray;
  g_autofree char *words = bw_tray_words_alike (tray, 2);
  gtk_label_set_text (self->alike, words ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->alike), words != NULL);
}

static void
show_letter (BwTrayPanel *self, const BwColour *colour)
{
  char letter[8] = { 0 };
  g_unichar_to_utf8 (colour->id, letter);
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->letter)), letter))
    bw_put_text (GTK_EDITABLE (self->letter), letter);
}

/* What the piece takes of the colour in hand. */
static void
show_amount (BwTrayPanel *self)
{
  guint64 counts[256] = { 0 };
  count_beads (self, counts);
  guint64 n = counts[chosen (self)];
  double grams = (double)n * bw_bead_mass_g (&bw_project_get_design (project_of (self))->bead);
  g_autofree char *words
      = g_strdup_printf (ngettext ("%d bead, %.*f g", "%d beads, %.*f g", (gulong)n), (int)n,
                         grams < 0.1 ? 2 : 1, grams);
  bw_label_set_words (self->amount, words);
}

/* "" for nothing. Owned. */
static char *
in_hand_words (double grams)
{
  return grams > 0 ? g_strdup_printf ("%g", grams) : g_strdup ("");
}

static void
show_order (BwTrayPanel *self, const BwColour *colour)
{
  g_autofree char *grams = in_hand_words (colour->in_hand_g);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->article)), colour->article) != 0)
    bw_put_text (GTK_EDITABLE (self->article), colour->article);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->in_hand)), grams) != 0)
    bw_put_text (GTK_EDITABLE (self->in_hand), grams);
}

static void
show_chosen (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  const BwColour *colour = &tray->colour[chosen (self)];
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->name)), colour->name) != 0)
    bw_put_text (GTK_EDITABLE (self->name), colour->name);
  bw_bead_swatch_set_colour (self->bead, colour);
  show_letter (self, colour);
  show_order (self, colour);
  bw_finish_card_show (self->finish, colour);
  gtk_widget_set_sensitive (self->add, tray->n_colours < BW_TRAY_MAX);
  gtk_widget_set_sensitive (self->merge_button, tray->n_colours > 1);
  gtk_widget_set_sensitive (self->up, chosen (self) > 0);
  gtk_widget_set_sensitive (self->down, chosen (self) + 1 < tray->n_colours);
  gtk_widget_set_sensitive (GTK_WIDGET (self->remove), tray->n_colours > 1);
}

static void
follow_session (BwTrayPanel *self)
{
  BwSession *session = bw_draft_get_session (bw_card_get_draft (BW_CARD (self)));
  if (!g_set_object (&self->session, session))
    return;
  bw_tray_merge_bind (self->merge, session);
  bw_tray_choice_bind (self->choice, session);
  g_signal_connect_object (session, "hand-changed", G_CALLBACK (bw_card_refresh), self,
                           G_CONNECT_SWAPPED);
}

static void
bw_tray_panel_refresh (BwCard *card)
{
  BwTrayPanel *self = BW_TRAY_PANEL (card);
  follow_session (self);
  show_list (self);
  show_alike (self);
  show_amount (self);
  show_chosen (self);
}

static void
row_selected (BwTrayPanel *self, GtkListBoxRow *row)
{
  if (!bw_card_is_refreshing (BW_CARD (self)) && row)
    bw_session_set_colour (self->session, gtk_list_box_row_get_index (row));
}

/* One change of the tray as one step; a tray that cannot stand shows the old one again. */
static void
set_tray (BwTrayPanel *self, const char *label, const BwTray *tray)
{
  g_autoptr (GError) error = NULL;
  if (!bw_project_set_tray (project_of (self), label, tray, &error)) {
    g_info ("%s: %s", label, error->message);
    bw_card_refresh (BW_CARD (self));
  }
}

/* A text is cut between characters, never within one. */
static void
put_text (char *buffer, gsize bytes, const char *text)
{
  const char *end = text;
  while (*end && g_utf8_next_char (end) <= text + bytes - 1)
    end = g_utf8_next_char (end);
  memset (buffer, 0, bytes);
  memcpy (buffer, text, (gsize)(end - text));
}

static void
name_typed (BwTrayPanel *self)
{
  const char *name = gtk_editable_get_text (GTK_EDITABLE (self->name));
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwTray tray = *bw_project_get_tray (project_of (self));
  BwColour *colour = &tray.colour[chosen (self)];
  if (g_str_equal (name, colour->name))
    return;
  put_text (colour->name, sizeof colour->name, name);
  set_tray (self, _ ("Colour’s name"), &tray);
}

static void
article_typed (BwTrayPanel *self)
{
  const char *article = gtk_editable_get_text (GTK_EDITABLE (self->article));
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwTray tray = *bw_project_get_tray (project_of (self));
  BwColour *colour = &tray.colour[chosen (self)];
  if (g_str_equal (article, colour->article))
    return;
  put_text (colour->article, sizeof colour->article, article);
  set_tray (self, _ ("Article number"), &tray);
}

static void
refuse_weight (BwTrayPanel *self, const char *typed, const char *shown)
{
  g_autofree char *sentence = g_strdup_printf (_ ("“%s” is no weight in grams from 0 to %g."),
                                               typed, (double)BW_IN_HAND_MAX_G);
  bw_tell (GTK_WIDGET (self), GTK_MESSAGE_WARNING, sentence);
  bw_put_text (GTK_EDITABLE (self->in_hand), shown);
}

/* In the user's decimals; nothing typed is nothing in hand. */
static void
in_hand_typed (BwTrayPanel *self)
{
  g_autofree char *shown
      = in_hand_words (bw_project_get_tray (project_of (self))->colour[chosen (self)].in_hand_g);
  g_autofree char *typed
      = g_strdelimit (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->in_hand))), ",", '.');
  char *end;
  if (bw_card_is_refreshing (BW_CARD (self))
      || g_str_equal (shown, gtk_editable_get_text (GTK_EDITABLE (self->in_hand))))
    return;
  double grams = g_ascii_strtod (g_strstrip (typed), &end);
  if (*end || !(grams >= 0 && grams <= BW_IN_HAND_MAX_G)) {
    refuse_weight (self, gtk_editable_get_text (GTK_EDITABLE (self->in_hand)), shown);
    return;
  }
  BwTray tray = *bw_project_get_tray (project_of (self));
  tray.colour[chosen (self)].in_hand_g = grams;
  set_tray (self, _ ("Beads in hand"), &tray);
}

/* Why a letter cannot be this colour's; NULL when it can. Owned. */
static char *
letter_fault (BwTrayPanel *self, gunichar letter)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  int owner = bw_tray_find (tray, letter);
  if (letter == 0 || !bw_tray_is_letter (letter))
    return g_strdup (_ ("A colour needs one letter or sign that can be seen."));
  if (owner < 0 || owner == chosen (self))
    return NULL;
  g_autofree char *name = bw_colour_words (&tray->colour[owner]);
  return g_strdup_printf (_ ("That is the letter of “%s”."), name);
}

static void
show_letter_fault (BwTrayPanel *self, const char *fault)
{
  gtk_label_set_text (self->letter_problem, fault ? fault : "");
  gtk_widget_set_visible (GTK_WIDGET (self->letter_problem), fault != NULL);
  if (fault)
    gtk_widget_add_css_class (GTK_WIDGET (self->letter), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->letter), "error");
}

static gunichar
typed_letter (BwTrayPanel *self)
{
  return g_utf8_get_char (gtk_editable_get_text (GTK_EDITABLE (self->letter)));
}

static void
letter_changed (BwTrayPanel *self)
{
  g_autofree char *fault = NULL;
  if (!bw_card_is_refreshing (BW_CARD (self)))
    fault = letter_fault (self, typed_letter (self));
  show_letter_fault (self, fault);
}

/* A letter that cannot stand gives way to the one there was. */
static void
letter_typed (BwTrayPanel *self)
{
  gunichar letter = typed_letter (self);
  g_autofree char *fault = NULL;
  if (bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwTray tray = *bw_project_get_tray (project_of (self));
  if (letter == tray.colour[chosen (self)].id)
    return;
  fault = letter_fault (self, letter);
  tray.colour[chosen (self)].id = letter;
  if (fault)
    bw_card_refresh (BW_CARD (self));
  else
    set_tray (self, _ ("Colour’s letter"), &tray);
  show_letter_fault (self, NULL);
}

static void
colour_chosen (guint32 srgb, gpointer data)
{
  BwTrayPanel *self = data;
  BwTray tray = *bw_project_get_tray (project_of (self));
  tray.colour[chosen (self)].srgb = srgb;
  set_tray (self, _ ("Change a colour"), &tray);
}

static void
recolour_clicked (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  bw_colour_dialog_ask (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), _ ("Bead colour"),
                        tray->colour[chosen (self)].srgb, colour_chosen, g_object_ref (self),
                        g_object_unref);
}

static void
finish_chosen (BwTrayPanel *self, guint finish)
{
  BwTray tray = *bw_project_get_tray (project_of (self));
  if (tray.colour[chosen (self)].finish == finish)
    return;
  tray.colour[chosen (self)].finish = (BwFinish)finish;
  set_tray (self, _ ("Finish"), &tray);
}

/* The colour moved is in hand then. */
static void
move_to (int from, int to, gpointer data)
{
  BwTrayPanel *self = data;
  if (bw_project_move_colour (project_of (self), _ ("Order of colours"), from, to))
    bw_session_set_colour (self->session, to);
}

static void
move (BwTrayPanel *self, int by)
{
  move_to (chosen (self), chosen (self) + by, self);
}

static void
up_clicked (BwTrayPanel *self)
{
  move (self, -1);
}

static void
down_clicked (BwTrayPanel *self)
{
  move (self, 1);
}

static void
add_clicked (BwTrayPanel *self)
{
  BwTray tray = *bw_project_get_tray (project_of (self));
  if (tray.n_colours >= BW_TRAY_MAX)
    return;
  const BwColour *like = &tray.colour[chosen (self)];
  tray.colour[tray.n_colours] = (BwColour){ .id = bw_tray_free_letter (&tray),
                                            .srgb = bw_tray_free_colour (&tray, like->srgb),
                                            .finish = like->finish };
  tray.n_colours++;
  set_tray (self, _ ("Add a colour"), &tray);
  bw_session_set_colour (self->session, tray.n_colours - 1);
  gtk_widget_grab_focus (GTK_WIDGET (self->name));
}

/* The colours that may take over, all but the chosen one. */
static void
question_opens (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  guint64 counts[256] = { 0 };
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  count_beads (self, counts);
  for (int i = 0; i < tray->n_colours; i++)
    if (i != chosen (self))
      gtk_string_list_take (names, bw_colour_words (&tray->colour[i]));
  gtk_drop_down_set_model (self->heir, G_LIST_MODEL (names));
  g_autofree char *name = bw_colour_words (&tray->colour[chosen (self)]);
  int count = (int)counts[chosen (self)];
  g_autofree char *words = count > 0
                               ? g_strdup_printf (_ ("The %d beads of “%s” become"), count, name)
                               : g_strdup_printf (_ ("No bead has “%s”."), name);
  gtk_label_set_text (self->question_words, words);
  gtk_widget_set_visible (GTK_WIDGET (self->heir), count > 0);
}

static void
remove_clicked (BwTrayPanel *self)
{
  int gone = chosen (self), heir = (int)gtk_drop_down_get_selected (self->heir);
  gtk_popover_popdown (self->question);
  if (heir >= gone)
    heir++;
  bw_project_remove_colour (project_of (self), _ ("Remove a colour"), gone, heir, NULL);
  bw_session_set_colour (self->session, heir > gone ? heir - 1 : heir);
}

/* --- The menu of a colour ----------------------------------------------------------------------
 */

static GMenuModel *
menu_of_chosen (BwTrayPanel *self)
{
  const BwTray *tray = bw_project_get_tray (project_of (self));
  int n = tray->n_colours, at = chosen (self);
  g_autoptr (GMenu) menu = g_menu_new ();
  GMenu *change = bw_menu_section (menu), *order = bw_menu_section (menu);
  GMenu *count = bw_menu_section (menu);
  bw_menu_add (change, _ ("Change the Colour…"), "tray.colour");
  bw_menu_add (change, _ ("Rename"), "tray.rename");
  bw_menu_add (change, _ ("Select Its Beads"), "tray.select");
  bw_menu_add (order, _ ("Move Up"), at > 0 ? "tray.up" : NULL);
  bw_menu_add (order, _ ("Move Down"), at + 1 < n ? "tray.down" : NULL);
  bw_menu_add (count, _ ("Add a Colour"), n < BW_TRAY_MAX ? "tray.add" : NULL);
  bw_menu_add (count, _ ("Merge…"), n > 1 ? "tray.merge" : NULL);
  bw_menu_add (count, _ ("Remove…"), n > 1 ? "tray.remove" : NULL);
  return G_MENU_MODEL (g_steal_pointer (&menu));
}

static void
open_menu (BwTrayPanel *self, double x, double y)
{
  g_autoptr (GMenuModel) menu = menu_of_chosen (self);
  bw_menu_open_at (GTK_WIDGET (self), GTK_WIDGET (self->list), x, y, menu);
}

/* The right button takes the colour in hand too: what the menu does is done to that. */
static void
menu_pressed (BwTrayPanel *self, int n_press, double x, double y)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_y (self->list, (int)y);
  if (!row)
    return;
  bw_session_set_colour (self->session, gtk_list_box_row_get_index (row));
  open_menu (self, x, y);
}

static gboolean
menu_key (BwTrayPanel *self, guint key, guint code, GdkModifierType state)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, chosen (self));
  double x = 0, y = 0;
  if (!bw_menu_is_key (key, state) || !row)
    return FALSE;
  gtk_widget_translate_coordinates (GTK_WIDGET (row), GTK_WIDGET (self->list), 12,
                                    gtk_widget_get_height (GTK_WIDGET (row)) / 2.0, &x, &y);
  open_menu (self, x, y);
  return TRUE;
}

static void
select_beads (BwTrayPanel *self)
{
  const BwDrawing *drawing = bw_project_get_drawing (project_of (self));
  BwRegion *region = bw_region_new (bw_drawing_columns (drawing), bw_drawing_rows (drawing));
  bw_region_add_colour (region, drawing, (guint8)chosen (self));
  bw_session_take_selection (self->session, region);
}

/* What is asked beside a control needs the control: a folded tray unfolds first. */
static gboolean
pop_up (gpointer button)
{
  if (gtk_widget_get_mapped (button))
    gtk_menu_button_popup (button);
  return G_SOURCE_REMOVE;
}

static void
ask_beside (BwTrayPanel *self, gpointer button)
{
  g_object_set (bw_settings_get (), "tray-folded", FALSE, NULL);
  g_idle_add_full (G_PRIORITY_LOW, pop_up, g_object_ref (button), g_object_unref);
}

static void
do_item (GtkWidget *widget, const char *action, GVariant *parameter)
{
  BwTrayPanel *self = BW_TRAY_PANEL (widget);
  if (g_str_equal (action, "tray.colour"))
    recolour_clicked (self);
  else if (g_str_equal (action, "tray.select"))
    select_beads (self);
  else if (g_str_equal (action, "tray.up"))
    move (self, -1);
  else if (g_str_equal (action, "tray.down"))
    move (self, 1);
  else if (g_str_equal (action, "tray.merge"))
    ask_beside (self, self->merge_button);
  else if (g_str_equal (action, "tray.remove"))
    ask_beside (self, self->remove);
  else {
    g_object_set (bw_settings_get (), "tray-folded", FALSE, NULL);
    if (g_str_equal (action, "tray.add"))
      add_clicked (self);
    gtk_widget_grab_focus (GTK_WIDGET (self->name));
  }
}

static void
add_menu (BwTrayPanel *self)
{
  GtkGesture *press = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (press), GDK_BUTTON_SECONDARY);
  g_signal_connect_swapped (press, "released", G_CALLBACK (menu_pressed), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (menu_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self->list), GTK_EVENT_CONTROLLER (press));
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
}

void
bw_tray_panel_set_folded (BwTrayPanel *self, gboolean folded)
{
  g_return_if_fail (BW_IS_TRAY_PANEL (self));
  self->folded = folded;
  gtk_widget_set_visible (self->details, !folded);
  if (folded)
    gtk_widget_add_css_class (GTK_WIDGET (self), "folded");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "folded");
  for (int i = 0; gtk_list_box_get_row_at_index (self->list, i); i++)
    bw_tray_row_set_folded (BW_TRAY_ROW (gtk_list_box_get_row_at_index (self->list, i)), folded);
}

static void
bw_tray_panel_dispose (GObject *object)
{
  g_clear_object (&BW_TRAY_PANEL (object)->session);
  G_OBJECT_CLASS (bw_tray_panel_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, list);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, details);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, amount);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, name);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, article);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, in_hand);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, recolour);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, bead);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, finish);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, up);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, down);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, remove);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, question);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, question_words);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, heir);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, add);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, letter);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, letter_problem);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, alike);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, choices);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, merge_button);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, merge);
  gtk_widget_class_bind_template_child (widget_class, BwTrayPanel, choice);
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  name_typed (BW_TRAY_PANEL (widget));
  article_typed (BW_TRAY_PANEL (widget));
  in_hand_typed (BW_TRAY_PANEL (widget));
  letter_typed (BW_TRAY_PANEL (widget));
}

static void
bw_tray_panel_class_init (BwTrayPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_tray_panel_dispose;
  BW_CARD_CLASS (klass)->refresh = bw_tray_panel_refresh;
  static const char *const items[] = { "tray.colour", "tray.rename", "tray.select", "tray.up",
                                       "tray.down",   "tray.add",    "tray.merge",  "tray.remove" };
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    gtk_widget_class_install_action (widget_class, items[i], NULL, do_item);
  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-panel.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, row_selected);
  gtk_widget_class_bind_template_callback (widget_class, name_typed);
  gtk_widget_class_bind_template_callback (widget_class, article_typed);
  gtk_widget_class_bind_template_callback (widget_class, in_hand_typed);
  gtk_widget_class_bind_template_callback (widget_class, letter_typed);
  gtk_widget_class_bind_template_callback (widget_class, letter_changed);
  gtk_widget_class_bind_template_callback (widget_class, recolour_clicked);
  gtk_widget_class_bind_template_callback (widget_class, finish_chosen);
  gtk_widget_class_bind_template_callback (widget_class, up_clicked);
  gtk_widget_class_bind_template_callback (widget_class, down_clicked);
  gtk_widget_class_bind_template_callback (widget_class, add_clicked);
  gtk_widget_class_bind_template_callback (widget_class, question_opens);
  gtk_widget_class_bind_template_callback (widget_class, remove_clicked);
}

static void
bw_tray_panel_init (BwTrayPanel *self)
{
  g_type_ensure (BW_TYPE_BEAD_SWATCH);
  g_type_ensure (BW_TYPE_TRAY_MERGE);
  g_type_ensure (BW_TYPE_TRAY_CHOICE);
  g_type_ensure (BW_TYPE_FINISH_CARD);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->choices, bw_wrap_layout_new (6));
  add_menu (self);
  bw_tray_drag_add (self->list, move_to, self);
}
