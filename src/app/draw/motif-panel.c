/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every kind keeps its own numbers while the panel lives, so that looking at another one loses
 * nothing. What is shown is a trial of the project: leaving the panel, or doing anything else,
 * takes it away again. */
#include "config.h"

#include "app/draw/colour-rows.h"
#include "app/draw/motif-panel.h"
#include "app/draw/motif-picture.h"
#include "app/draw/motif-words.h"
#include "app/draw/own-deeds.h"
#include "app/draw/own-picture.h"
#include "app/kit/put-text.h"
#include "app/kit/tip.h"
#include "app/kit/wrap-layout.h"
#include "core/band/made-band.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>

#define SEEN_AT_ONCE 6 /* motifs of the maker's own; more are searched by name */

struct _BwMotifPanel {
  BwCard parent_instance;
  BwMotif motif[BW_N_MOTIFS];
  gboolean known[BW_N_MOTIFS];    /* its numbers have been set once */
  gboolean numbered[BW_N_MOTIFS]; /* a number of times round, not one on each face */
  int middle;                     /* 0 the join, 1.. a face, beyond: elsewhere */
  int faces;                      /* that the list of middles shows */
  gboolean showing;
  GtkFlowBox *kinds, *own;
  GtkSearchEntry *own_search;
  GtkLabel *no_own; /* said while there is none, or one that cannot be read */
  GtkLabel *kind_name, *size_name, *reach_name, *room, *problem;
  GtkEntry *text;
  GtkSpinButton *size, *reach, *slope, *density, *seed, *repeats, *centre, *first, *last;
  GtkDropDown *lean, *dither, *spread, *place;
  BwColourRows *colours;
  GtkCheckButton *plate, *ground; /* of lettering; of what has a figure */
  GtkWidget *text_row, *size_row, *reach_row, *slope_row, *lean_row, *density_row, *seed_row,
      *dither_row, *spread_row, *repeats_row, *place_row, *centre_row, *deeds, *drop, *keep;
};

G_DEFINE_FINAL_TYPE (BwMotifPanel, bw_motif_panel, BW_TYPE_CARD)

enum { CENTRED, BEADS, N_SIGNALS };
static guint signals[N_SIGNALS];

static BwProject *
project_of (BwMotifPanel *self)
{
  return bw_card_get_project (BW_CARD (self));
}

static BwMotifKind
kind_of (BwMotifPanel *self)
{
  GList *chosen = gtk_flow_box_get_selected_children (self->kinds);
  int kind = chosen ? gtk_flow_box_child_get_index (chosen->data) : 0;
  g_list_free (chosen);
  return (BwMotifKind)CLAMP (kind, 0, BW_N_MOTIFS - 1);
}

/* The colour that most beads have. */
static int
common_colour (BwMotifPanel *self)
{
  guint64 counts[256] = { 0 };
  int common = 0;
  bw_drawing_count (bw_project_get_drawing (project_of (self)), counts);
  for (int i = 1; i < bw_project_get_tray (project_of (self))->n_colours; i++)
    common = counts[i] > counts[common] ? i : common;
  return common;
}

/* The colour in hand on the colour that most beads have; what lies there stays. */
static void
choose_colours (BwMotifPanel *self, BwMotif *motif)
{
  BwSession *session = bw_draft_get_session (bw_card_get_draft (BW_CARD (self)));
  int n = bw_project_get_tray (project_of (self))->n_colours, least, most;
  int ground = common_colour (self), hand = bw_session_get_colour (session);
  if (hand == ground)
    hand = (ground + 1) % n;
  bw_motif_colour_range (motif->kind, &least, &most);
  motif->n_colours = motif->kind == BW_MOTIF_LETTERS ? 1 : MIN (2, most);
  motif->colour[0] = (guint8)hand;
  motif->colour[1] = (guint8)ground;
  motif->leaves_ground = bw_motif_has_ground (motif->kind);
}

static BwMotif *
motif_of (BwMotifPanel *self)
{
  BwMotifKind kind = kind_of (self);
  const BwDesign *design = bw_card_get_design (BW_CARD (self));
  BwMotif *motif = &self->motif[kind];
  if (!self->known[kind]) {
    bw_motif_init (motif, kind, design->band.columns, design->band.rows);
    motif->repeats = kind == BW_MOTIF_LETTERS ? 1 : design->stone.faces;
    choose_colours (self, motif);
    self->known[kind] = TRUE;
  }
  motif->last_column = MIN (motif->last_column, design->band.columns);
  motif->first_column = MIN (motif->first_column, motif->last_column);
  for (int i = 0; i < motif->n_colours; i++)
    if (motif->colour[i] >= bw_project_get_tray (project_of (self))->n_colours)
      motif->colour[i] = 0;
  return motif;
}

/* --- showing -------------------------------------------------------------------------------- */

static void
show_middles (BwMotifPanel *self, int faces)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  if (faces == self->faces)
    return;
  self->faces = faces;
  gtk_string_list_append (names, _ ("The join"));
  for (int i = 1; i <= faces; i++)
    gtk_string_list_take (names, g_strdup_printf (_ ("Face %d"), i));
  gtk_string_list_append (names, _ ("Elsewhere"));
  gtk_drop_down_set_model (self->place, G_LIST_MODEL (names));
  self->middle = MIN (self->middle, faces + 1);
}

static void
show_rows (BwMotifPanel *self, const BwMotif *motif)
{
  guint parts = bw_motif_parts (motif->kind);
  gboolean round = (parts & BW_MOTIF_HAS_REPEATS) != 0,
           numbered = round && self->numbered[motif->kind];
  gtk_widget_set_visible (self->text_row, (parts & BW_MOTIF_HAS_TEXT) != 0);
  gtk_widget_set_visible (GTK_WIDGET (self->plate), (parts & BW_MOTIF_HAS_TEXT) != 0);
  gtk_widget_set_visible (GTK_WIDGET (self->ground), bw_motif_has_ground (motif->kind));
  gtk_widget_set_visible (self->size_row, (parts & BW_MOTIF_HAS_SIZE) != 0);
  gtk_widget_set_visible (self->reach_row, (parts & BW_MOTIF_HAS_REACH) != 0);
  gtk_widget_set_visible (self->slope_row, (parts & BW_MOTIF_HAS_SLOPE) != 0);
  gtk_widget_set_visible (self->lean_row, (parts & BW_MOTIF_HAS_LEAN) != 0);
  gtk_widget_set_visible (self->density_row, (parts & BW_MOTIF_HAS_DENSITY) != 0);
  gtk_widget_set_visible (self->seed_row, (parts & BW_MOTIF_HAS_SEED) != 0);
  gtk_widget_set_visible (self->dither_row, (parts & BW_MOTIF_HAS_DITHER) != 0);
  gtk_widget_set_visible (self->spread_row, round);
  gtk_widget_set_visible (self->repeats_row, numbered);
  gtk_widget_set_visible (self->place_row, numbered);
  gtk_widget_set_visible (self->centre_row, numbered && self->middle > self->faces);
}

static void
show_numbers (BwMotifPanel *self, const BwMotif *motif)
{
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->text)), motif->text))
    bw_put_text (GTK_EDITABLE (self->text), motif->text);
  gtk_spin_button_set_value (self->size, motif->size);
  gtk_spin_button_set_value (self->reach, motif->reach);
  gtk_spin_button_set_value (self->slope, motif->slope);
  gtk_drop_down_set_selected (self->lean, motif->slope < 0 ? 0 : 1);
  gtk_spin_button_set_value (self->density, 100 * motif->density);
  gtk_spin_button_set_value (self->seed, motif->seed);
  gtk_drop_down_set_selected (self->dither, motif->dither);
  gtk_spin_button_set_value (self->repeats, motif->repeats);
  gtk_spin_button_set_value (self->centre, motif->centre);
}

static void
show_columns (BwMotifPanel *self, const BwMotif *motif)
{
  int columns = bw_card_get_design (BW_CARD (self))->band.columns;
  gtk_spin_button_set_range (self->first, 1, columns);
  gtk_spin_button_set_range (self->last, 1, columns);
  gtk_spin_button_set_value (self->first, motif->first_column);
  gtk_spin_button_set_value (self->last, motif->last_column);
}

/* The ground is chosen only where it is laid. */
static void
show_colours (BwMotifPanel *self, const BwMotif *motif)
{
  int least, most, left = motif->leaves_ground;
  bw_motif_colour_range (motif->kind, &least, &most);
  if (motif->kind == BW_MOTIF_LETTERS) /* the second one is their plate, and comes with it */
    least = most = motif->n_colours;
  gtk_check_button_set_active (self->plate, motif->n_colours > 1);
  gtk_check_button_set_active (self->ground, !left);
  bw_colour_rows_show (self->colours, bw_project_get_tray (project_of (self)), motif->colour,
                       motif->n_colours - left, MAX (1, least - left), most - left,
                       left ? motif->colour[motif->n_colours - 1] : -1);
}

static void
show_motif (BwMotifPanel *self)
{
  const BwMotif *motif = motif_of (self);
  self->showing = TRUE;
  show_middles (self, bw_card_get_design (BW_CARD (self))->stone.faces);
  gtk_label_set_text (self->kind_name, bw_motif_words_kind (motif->kind));
  gtk_label_set_text (self->size_name, bw_motif_words_size (motif->kind));
  gtk_label_set_text (self->reach_name, bw_motif_words_reach (motif->kind));
  show_numbers (self, motif);
  show_columns (self, motif);
  show_colours (self, motif);
  gtk_drop_down_set_selected (self->spread, self->numbered[motif->kind] ? 1 : 0);
  gtk_drop_down_set_selected (self->place, (guint)self->middle);
  show_rows (self, motif);
  gtk_widget_set_sensitive (self->drop, bw_project_has_trial (project_of (self)));
  self->showing = FALSE;
}

static void
show_problem (BwMotifPanel *self, const GError *error)
{
  gtk_label_set_text (self->problem, error ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), error != NULL);
  gtk_widget_set_sensitive (self->keep, error == NULL);
}

/* Told before anything is laid: what does not fit is refused, never cut. */
static void
show_room (BwMotifPanel *self, const BwMotif *motif, gboolean set)
{
  const BwBand *band = &bw_card_get_design (BW_CARD (self))->band;
  gboolean told = set && (bw_motif_parts (motif->kind) & BW_MOTIF_HAS_TEXT) != 0;
  gtk_widget_set_visible (GTK_WIDGET (self->room), told);
  if (!told)
    return;
  BwMotifRoom room = bw_motif_room (motif, band->rows);
  g_autofree char *words = bw_motif_words_room (&room);
  gtk_label_set_text (self->room, words);
}

/* --- taking --------------------------------------------------------------------------------- */

static void
take_colours (BwMotifPanel *self, BwMotif *motif)
{
  guint8 ground = motif->colour[motif->n_colours - 1];
  motif->n_colours = bw_colour_rows_get (self->colours, motif->colour);
  if (motif->leaves_ground)
    motif->colour[motif->n_colours++] = ground;
}

static void
take_numbers (BwMotifPanel *self, BwMotif *motif)
{
  guint parts = bw_motif_parts (motif->kind);
  g_strlcpy (motif->text, gtk_editable_get_text (GTK_EDITABLE (self->text)), sizeof motif->text);
  motif->size = gtk_spin_button_get_value (self->size);
  motif->reach = gtk_spin_button_get_value (self->reach);
  if (parts & BW_MOTIF_HAS_SLOPE)
    motif->slope = gtk_spin_button_get_value (self->slope);
  if (parts & BW_MOTIF_HAS_LEAN)
    motif->slope = gtk_drop_down_get_selected (self->lean) == 0 ? -1 : 1;
  motif->density = gtk_spin_button_get_value (self->density) / 100;
  motif->seed = (guint32)gtk_spin_button_get_value_as_int (self->seed);
  motif->dither = (BwDither)gtk_drop_down_get_selected (self->dither);
  motif->repeats = gtk_spin_button_get_value_as_int (self->repeats);
  motif->first_column = gtk_spin_button_get_value_as_int (self->first);
  motif->last_column = gtk_spin_button_get_value_as_int (self->last);
  take_colours (self, motif);
}

/* Each face is a repeat, or the repeats are counted from where the list of middles says. */
static BwMade
made_of (BwMotifPanel *self)
{
  const BwDesign *design = bw_card_get_design (BW_CARD (self));
  BwMotif *motif = motif_of (self);
  gboolean rings = (bw_motif_parts (motif->kind) & BW_MOTIF_HAS_REPEATS) != 0;
  BwMade made = { .motif = *motif };
  BwMadeBand band;
  made.motif.n_faces = rings && !self->numbered[motif->kind] ? design->stone.faces : 0;
  made.middle = self->middle <= design->stone.faces ? self->middle : BW_MADE_ELSEWHERE;
  if (made.middle == BW_MADE_ELSEWHERE)
    made.motif.centre = gtk_spin_button_get_value (self->centre);
  bw_made_band_init (&band, design, bw_project_stone (project_of (self)), motif->first_column,
                     motif->last_column);
  bw_made_settle (&made, &band);
  *motif = made.motif;
  return made;
}

static gboolean
try_motif (BwMotifPanel *self, GError **error)
{
  const BwBand *band = &bw_card_get_design (BW_CARD (self))->band;
  BwMade made = made_of (self);
  const BwMotif *motif = &made.motif;
  BwFault fault;
  gboolean valid = bw_motif_validate (motif, band->columns, band->rows, &fault);
  show_room (self, motif, valid);
  if (!valid)
    return bw_fault_tell (&fault, error);
  g_autoptr (BwDrawing) drawing = bw_drawing_copy (bw_project_get_drawing (project_of (self)));
  g_autofree char *label = bw_motif_words_step (motif->kind);
  bw_motif_draw (motif, drawing);
  bw_session_keep_locked (bw_draft_get_session (bw_card_get_draft (BW_CARD (self))), drawing);
  bw_draft_settle (bw_card_get_draft (BW_CARD (self)));
  if (!bw_project_try (project_of (self), label, NULL, drawing, error))
    return FALSE;
  bw_project_trial_is (project_of (self), &made);
  return TRUE;
}

static void
try_now (BwMotifPanel *self)
{
  g_autoptr (GError) error = NULL;
  if (!try_motif (self, &error))
    bw_project_drop_trial (project_of (self));
  show_problem (self, error);
  gtk_widget_set_sensitive (self->drop, bw_project_has_trial (project_of (self)));
}

static void
changed (BwMotifPanel *self)
{
  if (self->showing || bw_card_is_refreshing (BW_CARD (self)))
    return;
  BwMotif *motif = motif_of (self);
  take_numbers (self, motif);
  show_rows (self, motif);
  try_now (self);
}

static void
spread_chosen (BwMotifPanel *self)
{
  if (self->showing)
    return;
  self->numbered[kind_of (self)] = gtk_drop_down_get_selected (self->spread) == 1;
  changed (self);
}

/* A plate that can be told from what the word lies on: another colour of the tray, or, where there
 * are only two, the word's own, and the word in the band's. */
static void
choose_plate (BwMotifPanel *self, BwMotif *motif)
{
  int n = bw_project_get_tray (project_of (self))->n_colours;
  guint8 band = bw_drawing_ground (bw_project_get_drawing (project_of (self)));
  if (motif->n_colours > 1 && motif->colour[1] == band)
    for (int i = n - 1; i >= 0; i--)
      if (i != band && i != motif->colour[0])
        motif->colour[1] = (guint8)i;
  if (motif->n_colours > 1 && motif->colour[1] == band && motif->colour[0] != band) {
    motif->colour[1] = motif->colour[0];
    motif->colour[0] = band;
  } else if (motif->n_colours == 1 && motif->colour[0] == band) {
    motif->colour[0] = motif->colour[1];
    motif->colour[1] = band;
  }
}

static void
plate_toggled (BwMotifPanel *self)
{
  if (self->showing)
    return;
  motif_of (self)->n_colours = gtk_check_button_get_active (self->plate) ? 2 : 1;
  choose_plate (self, motif_of (self));
  show_motif (self);
  changed (self);
}

/* What is all figure gets a ground before that is left out. */
static void
ground_toggled (BwMotifPanel *self)
{
  if (self->showing)
    return;
  BwMotif *motif = motif_of (self);
  motif->leaves_ground = !gtk_check_button_get_active (self->ground);
  if (motif->leaves_ground && motif->n_colours == 1)
    motif->colour[motif->n_colours++] = (guint8)common_colour (self);
  show_motif (self);
  changed (self);
}

static void
place_chosen (BwMotifPanel *self)
{
  if (self->showing)
    return;
  self->middle = (int)gtk_drop_down_get_selected (self->place);
  changed (self);
  g_signal_emit (self, signals[CENTRED], 0, motif_of (self)->centre);
}

static void
kind_chosen (BwMotifPanel *self)
{
  if (bw_card_is_refreshing (BW_CARD (self)) || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  show_motif (self);
  try_now (self);
}

/* The next one has the whole band before it again: what was filled is filled. */
static void
forget_columns (BwMotifPanel *self)
{
  const BwBand *band = &bw_card_get_design (BW_CARD (self))->band;
  BwMotif *motif = motif_of (self), fresh;
  bw_motif_init (&fresh, motif->kind, band->columns, band->rows);
  motif->first_column = fresh.first_column;
  motif->last_column = fresh.last_column;
  show_motif (self);
}

static void
keep_clicked (BwMotifPanel *self)
{
  if (!bw_project_has_trial (project_of (self)))
    try_now (self);
  bw_project_keep_trial (project_of (self));
  forget_columns (self);
}

static void
drop_clicked (BwMotifPanel *self)
{
  bw_project_drop_trial (project_of (self));
}

/* --- the maker's own ------------------------------------------------------------------------ */

static GtkWidget *
own_child (BwOwnMotif *motif)
{
  GtkWidget *child = gtk_flow_box_child_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *name = gtk_label_new (motif->name);
  g_autofree char *tip = g_strdup_printf (_ ("Take “%s” to the band"), motif->name);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 8);
  gtk_widget_add_css_class (name, "small");
  g_autofree char *keys
      = g_strdup_printf ("%s\n%s", tip, _ ("Rename: F2. Remove: Delete. Both: right button."));
  bw_tip_set (child, keys);
  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  gtk_box_append (GTK_BOX (box), bw_own_picture_new (motif));
  gtk_box_append (GTK_BOX (box), name);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), box);
  return child;
}

void
bw_motif_panel_look_at_own (BwMotifPanel *self)
{
  g_return_if_fail (BW_IS_MOTIF_PANEL (self));
  g_autofree char *damaged = NULL;
  g_autoptr (GPtrArray) all = bw_own_motifs_load (&damaged);
  g_autofree char *words
      = damaged ? g_strdup_printf (_ ("“%s” in the folder of your motifs cannot be read."), damaged)
                : g_strdup (_ ("Select beads on the band and save them as a motif."));
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->own))))
    gtk_flow_box_remove (self->own, child);
  gtk_label_set_text (self->no_own, words);
  gtk_widget_set_visible (GTK_WIDGET (self->no_own), all->len == 0 || damaged);
  gtk_widget_set_visible (GTK_WIDGET (self->own_search), all->len > SEEN_AT_ONCE);
  while (all->len > 0)
    gtk_flow_box_append (self->own, own_child (g_ptr_array_steal_index (all, 0)));
}

/* What nobody can see is not searched by. */
static gboolean
is_sought (GtkFlowBoxChild *child, gpointer data)
{
  BwMotifPanel *self = data;
  g_autofree char *sought
      = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (self->own_search)), -1);
  g_autofree char *name = g_utf8_casefold (bw_own_deeds_name (child), -1);
  return !gtk_widget_get_visible (GTK_WIDGET (self->own_search))
         || strstr (name, g_strstrip (sought)) != NULL;
}

static void
own_sought (BwMotifPanel *self)
{
  gtk_flow_box_invalidate_filter (self->own);
}

static void
own_changed (GtkWidget *widget)
{
  bw_motif_panel_look_at_own (BW_MOTIF_PANEL (widget));
}

static void
own_activated (BwMotifPanel *self, GtkFlowBoxChild *child)
{
  GtkWidget *picture = gtk_widget_get_first_child (gtk_flow_box_child_get_child (child));
  const BwOwnMotif *motif = bw_own_picture_get (BW_OWN_PICTURE (picture));
  bw_project_drop_trial (project_of (self));
  g_autofree char *beads = bw_own_motif_for (motif, bw_project_get_tray (project_of (self)));
  g_signal_emit (self, signals[BEADS], 0, beads);
}

static gboolean
enter_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwMotifPanel *self = BW_MOTIF_PANEL (widget);
  if (gtk_widget_get_sensitive (self->keep))
    keep_clicked (self);
  return TRUE;
}

static gboolean
escape_pressed (GtkWidget *widget, GVariant *args, gpointer data)
{
  BwMotifPanel *self = BW_MOTIF_PANEL (widget);
  gboolean shown = bw_project_has_trial (project_of (self));
  bw_project_drop_trial (project_of (self));
  return shown;
}

static void
bw_motif_panel_refresh (BwCard *card)
{
  show_motif (BW_MOTIF_PANEL (card));
}

/* What was chosen last is shown as soon as the panel is, and goes with it. */
static void
bw_motif_panel_map (GtkWidget *widget)
{
  BwMotifPanel *self = BW_MOTIF_PANEL (widget);
  GTK_WIDGET_CLASS (bw_motif_panel_parent_class)->map (widget);
  if (!project_of (self))
    return;
  bw_motif_panel_look_at_own (self);
  show_motif (self);
  try_now (self);
}

static void
bw_motif_panel_unmap (GtkWidget *widget)
{
  BwMotifPanel *self = BW_MOTIF_PANEL (widget);
  GTK_WIDGET_CLASS (bw_motif_panel_parent_class)->unmap (widget);
  if (project_of (self))
    bw_project_drop_trial (project_of (self));
}

static void
bind_rows (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, text_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, size_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, reach_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, slope_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, lean_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, density_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, seed_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, dither_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, spread_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, repeats_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, place_row);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, centre_row);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, kinds);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, own);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, no_own);
  gtk_widget_class_bind_template_callback (widget_class, own_activated);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, own_search);
  gtk_widget_class_bind_template_callback (widget_class, own_sought);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, kind_name);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, size_name);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, reach_name);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, room);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, plate);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, ground);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, problem);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, text);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, size);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, reach);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, slope);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, lean);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, density);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, seed);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, dither);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, colours);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, spread);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, repeats);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, place);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, centre);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, first);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, last);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, deeds);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, drop);
  gtk_widget_class_bind_template_child (widget_class, BwMotifPanel, keep);
}

static void
bw_motif_panel_class_init (BwMotifPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_motif_panel_refresh;
  widget_class->map = bw_motif_panel_map;
  widget_class->unmap = bw_motif_panel_unmap;
  signals[BEADS] = g_signal_new ("beads", BW_TYPE_MOTIF_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CENTRED] = g_signal_new ("centred", BW_TYPE_MOTIF_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  g_type_ensure (BW_TYPE_COLOUR_ROWS);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_pressed, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK, enter_pressed,
                                NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Enter, GDK_CONTROL_MASK, enter_pressed,
                                NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/motif-panel.ui");
  bind_children (widget_class);
  bind_rows (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, kind_chosen);
  gtk_widget_class_bind_template_callback (widget_class, plate_toggled);
  gtk_widget_class_bind_template_callback (widget_class, ground_toggled);
  gtk_widget_class_bind_template_callback (widget_class, spread_chosen);
  gtk_widget_class_bind_template_callback (widget_class, place_chosen);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
  gtk_widget_class_bind_template_callback (widget_class, drop_clicked);
}

static void
add_kinds (BwMotifPanel *self)
{
  for (BwMotifKind kind = 0; kind < BW_N_MOTIFS; kind++) {
    GtkWidget *child = gtk_flow_box_child_new ();
    gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), bw_motif_picture_new (kind));
    bw_tip_set (child, bw_motif_words_kind (kind));
    gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    bw_motif_words_kind (kind), -1);
    gtk_flow_box_append (self->kinds, child);
  }
  gtk_flow_box_select_child (self->kinds,
                             gtk_flow_box_get_child_at_index (self->kinds, BW_MOTIF_CHEVRONS));
}

static void
bw_motif_panel_init (BwMotifPanel *self)
{
  self->numbered[BW_MOTIF_LETTERS] = TRUE;
  self->middle = 1;
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new_narrow (4));
  add_kinds (self);
  bw_own_deeds_attach (GTK_WIDGET (self), self->own, own_changed);
  gtk_flow_box_set_filter_func (self->own, is_sought, self, NULL);
}
