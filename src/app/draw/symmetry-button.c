/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every symmetry a strip can have is named; those that this lattice or this repeat cannot carry are
 * grey, with the reason beside them. */
#include "config.h"

#include "app/draw/symmetry-button.h"
#include "app/kit/named-icon.h"
#include "app/kit/tip.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const struct {
  BwFrieze frieze;
  gboolean each_face;
  const char *name;
} choices[] = {
  { BW_FRIEZE_P1, FALSE, N_ ("As drawn") },
  { BW_FRIEZE_P1M1, FALSE, N_ ("Mirror") },
  { BW_FRIEZE_P2, FALSE, N_ ("Half-turn") },
  { BW_FRIEZE_P11G, FALSE, N_ ("Step and flip") },
  { BW_FRIEZE_P2MG, FALSE, N_ ("Mirror and half-turn") },
  { BW_FRIEZE_P1, TRUE, N_ ("Same on every face") },
  { BW_FRIEZE_P1M1, TRUE, N_ ("Mirrored on every face") },
  { BW_FRIEZE_P11M, FALSE, N_ ("Mirror along the band") },
  { BW_FRIEZE_P2MM, FALSE, N_ ("Both mirrors") },
};

#define CONTENT_MOST_PX 560
#define BAR_PX 18 /* kept free for the bar that scrolls, which the content is not asked about */

struct _BwSymmetryButton {
  GtkWidget parent_instance;
  BwSession *session;
  GtkWidget *button;
  BwNamedIcon *face; /* names the symmetry while strokes are carried on */
  GtkWidget *choice[G_N_ELEMENTS (choices)];
  GtkLabel *reason[G_N_ELEMENTS (choices)];
  GtkDropDown *centre;
  GtkCheckButton *repeats;
  GtkSpinButton *rows;
  GtkLabel *fit;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (BwSymmetryButton, bw_symmetry_button, GTK_TYPE_WIDGET)

enum { CLOSED, N_SIGNALS };
static guint signals[N_SIGNALS];

static int
band_rows (BwSymmetryButton *self)
{
  return bw_project_get_design (bw_session_get_project (self->session))->band.rows;
}

static int
band_columns (BwSymmetryButton *self)
{
  return bw_project_get_design (bw_session_get_project (self->session))->band.columns;
}

/* --- Centres -----------------------------------------------------------------------------------
 */

/* Place i of the list, in rows from row 1: the middles of the faces, each followed by the edge
 * after it. */
static int
centre_row (BwSymmetryButton *self, guint i)
{
  BwProject *project = bw_session_get_project (self->session);
  double middle[BW_FACES_MAX], corner[BW_FACES_MAX];
  int n = (band_rows (self) + 1) / 2;
  bw_places_faces (bw_project_get_design (project), bw_project_stone (project),
                   (band_columns (self) + 1) / 2, n, middle, corner);
  return (int)lround (2 * (i % 2 ? corner[i / 2] : middle[i / 2]));
}

static void
fill_centres (BwSymmetryButton *self)
{
  int faces = bw_project_stone (bw_session_get_project (self->session))->faces;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  if (g_list_model_get_n_items (gtk_drop_down_get_model (self->centre)) == 2 * (guint)faces)
    return;
  for (int face = 0; face < faces; face++) {
    g_autofree char *middle = g_strdup_printf (_ ("Middle of face %d"), face + 1);
    g_autofree char *edge
        = g_strdup_printf (_ ("Edge of faces %d and %d"), face + 1, (face + 1) % faces + 1);
    gtk_string_list_append (names, middle);
    gtk_string_list_append (names, edge);
  }
  gtk_drop_down_set_model (self->centre, G_LIST_MODEL (names));
}

/* --- What is possible --------------------------------------------------------------------------
 */

static BwLiveSymmetry
with_choice (BwSymmetryButton *self, gsize i)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  live.frieze.frieze = choices[i].frieze;
  live.each_face = choices[i].each_face;
  return live;
}

/* Why a choice cannot be had now; NULL when it can. */
static const char *
why_not (BwSymmetryButton *self, gsize i)
{
  BwLiveSymmetry live = with_choice (self, i);
  if (live.each_face)
    return band_rows (self) < 6 ? _ ("The band is too short to have faces.") : NULL;
  switch (bw_symmetry_fit (&live.frieze, band_rows (self))) {
  case BW_FRIEZE_NEVER:
    return _ ("An even number of columns would be mirrored onto the gaps between beads.");
  case BW_FRIEZE_ODD_REPEAT:
    return _ ("Wants a repeat of an odd number of beads: 2, 6, 10, 14 … rows.");
  case BW_FRIEZE_FITS:
  case BW_FRIEZE_OPEN:
  default:
    return NULL;
  }
}

static char *
fit_words (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  int rows = band_rows (self), k = live.frieze.repeat_rows;
  if (live.each_face)
    return g_strdup (_ ("Strokes keep their distance from each face’s middle."));
  if (rows % 2)
    return g_strdup (_ ("An odd number of rows does not close: strokes end at the join."));
  if (k == 0)
    return g_strdup (_ ("Once round the stone."));
  if (rows % k == 0)
    return g_strdup_printf (_ ("%d times round the stone; it runs on across the join."), rows / k);
  int below = rows / k * k;
  if (below == 0)
    return g_strdup_printf (_ ("The band is shorter than one repeat. It runs on with %d rows."), k);
  return g_strdup_printf (_ ("Breaks at the join: %d rows are left over. It runs on with %d or %d "
                             "rows; on the band, crosses mark the beads that break it."),
                          rows - below, below, below + k);
}

/* --- Showing -----------------------------------------------------------------------------------
 */

static gsize
chosen (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++)
    if (choices[i].frieze == live.frieze.frieze && choices[i].each_face == live.each_face)
      return i;
  return 0;
}

static void
show_button (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  gsize now = chosen (self);
  g_autofree char *words = NULL;
  if (!live.each_face && live.frieze.repeat_rows > 0)
    words
        = g_strdup_printf (_ ("%s, every %d rows"), _ (choices[now].name), live.frieze.repeat_rows);
  else
    words = g_strdup (_ (choices[now].name));
  g_autofree char *tip = g_strdup_printf (_ ("Symmetry of every stroke: %s (Ctrl+M)"), words);
  bw_tip_set (self->button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip,
                                  -1);
  gboolean on = now != 0 || live.frieze.repeat_rows > 0;
  bw_named_icon_set_name (self->face, on ? _ (choices[now].name) : _ ("Symmetry"));
  if (on)
    gtk_widget_add_css_class (self->button, "carried");
  else
    gtk_widget_remove_css_class (self->button, "carried");
}

static void
show_choices (BwSymmetryButton *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++) {
    const char *reason = why_not (self, i);
    gtk_widget_set_sensitive (self->choice[i], reason == NULL);
    gtk_label_set_text (self->reason[i], reason ? reason : "");
    gtk_widget_set_visible (GTK_WIDGET (self->reason[i]), reason != NULL);
  }
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->choice[chosen (self)]), TRUE);
}

static void
show (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  BwFrieze frieze = live.frieze.frieze;
  g_autofree char *words = fit_words (self);
  self->showing = TRUE;
  show_button (self);
  show_choices (self);
  fill_centres (self);
  gtk_widget_set_sensitive (
      GTK_WIDGET (self->centre),
      !live.each_face
          && (frieze == BW_FRIEZE_P1M1 || frieze == BW_FRIEZE_P2 || frieze == BW_FRIEZE_P2MG));
  gtk_widget_set_sensitive (GTK_WIDGET (self->repeats), !live.each_face);
  gtk_check_button_set_active (self->repeats, live.frieze.repeat_rows > 0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->rows),
                            !live.each_face && live.frieze.repeat_rows > 0);
  gtk_spin_button_set_range (self->rows, 2, MAX (2, band_rows (self)));
  if (live.frieze.repeat_rows > 0)
    gtk_spin_button_set_value (self->rows, live.frieze.repeat_rows);
  gtk_label_set_text (self->fit, words);
  self->showing = FALSE;
}

/* --- Choosing ----------------------------------------------------------------------------------
 */

/* A glide that no longer has its odd repeat goes back to drawing as drawn. */
static void
set (BwSymmetryButton *self, BwLiveSymmetry live)
{
  if (!live.each_face && bw_symmetry_fit (&live.frieze, band_rows (self)) == BW_FRIEZE_ODD_REPEAT)
    live.frieze.frieze = BW_FRIEZE_P1;
  bw_session_set_symmetry (self->session, live);
}

static void
on_choice (BwSymmetryButton *self, GtkCheckButton *button)
{
  if (self->showing || !gtk_check_button_get_active (button))
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++)
    if (self->choice[i] == GTK_WIDGET (button)) {
      BwLiveSymmetry live = with_choice (self, i);
      live.frieze.centre = centre_row (self, gtk_drop_down_get_selected (self->centre));
      set (self, live);
    }
}

static void
on_centre (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  guint i = gtk_drop_down_get_selected (self->centre);
  if (self->showing || i == GTK_INVALID_LIST_POSITION)
    return;
  live.frieze.centre = centre_row (self, i);
  set (self, live);
}

static void
on_repeat (BwSymmetryButton *self)
{
  BwLiveSymmetry live = bw_session_get_symmetry (self->session);
  if (self->showing)
    return;
  int rows = gtk_spin_button_get_value_as_int (self->rows);
  live.frieze.repeat_rows = gtk_check_button_get_active (self->repeats) ? rows + rows % 2 : 0;
  set (self, live);
}

/* --- Building ----------------------------------------------------------------------------------
 */

static void
add_choice (BwSymmetryButton *self, GtkBox *box, gsize i)
{
  GtkWidget *reason = gtk_label_new ("");
  self->choice[i] = gtk_check_button_new_with_label (_ (choices[i].name));
  self->reason[i] = GTK_LABEL (reason);
  if (i > 0)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (self->choice[i]),
                                GTK_CHECK_BUTTON (self->choice[0]));
  gtk_label_set_wrap (self->reason[i], TRUE);
  gtk_label_set_xalign (self->reason[i], 0);
  gtk_label_set_max_width_chars (self->reason[i], 36);
  gtk_widget_set_margin_start (reason, 28);
  gtk_widget_add_css_class (reason, "small");
  gtk_box_append (box, self->choice[i]);
  gtk_box_append (box, reason);
  g_signal_connect_swapped (self->choice[i], "toggled", G_CALLBACK (on_choice), self);
}

static GtkWidget *
build_repeat (BwSymmetryButton *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->repeats = GTK_CHECK_BUTTON (gtk_check_button_new_with_label (_ ("Repeat every")));
  self->rows = GTK_SPIN_BUTTON (gtk_spin_button_new_with_range (2, 20000, 2));
  gtk_spin_button_set_value (self->rows, 12);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->rows), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Rows of a repeat"), -1);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->repeats));
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->rows));
  gtk_box_append (GTK_BOX (line), gtk_label_new (_ ("rows")));
  g_signal_connect_swapped (self->repeats, "toggled", G_CALLBACK (on_repeat), self);
  g_signal_connect_swapped (self->rows, "value-changed", G_CALLBACK (on_repeat), self);
  return line;
}

static GtkWidget *
build_centre (BwSymmetryButton *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->centre = GTK_DROP_DOWN (gtk_drop_down_new_from_strings ((const char *[]){ "", NULL }));
  gtk_widget_set_hexpand (GTK_WIDGET (self->centre), TRUE);
  bw_tip_set (GTK_WIDGET (self->centre), _ ("Mirror or turn about"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->centre), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Mirror or turn about"), -1);
  g_signal_connect_swapped (self->centre, "notify::selected", G_CALLBACK (on_centre), self);
  gtk_box_append (GTK_BOX (line), gtk_label_new (_ ("About")));
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->centre));
  return line;
}

/* How often and about what come first: the list below is long, and says what they make possible. */
static GtkWidget *
build_content (BwSymmetryButton *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *fit = gtk_label_new ("");
  gtk_widget_set_margin_end (box, BAR_PX);
  self->fit = GTK_LABEL (fit);
  gtk_label_set_wrap (self->fit, TRUE);
  gtk_label_set_xalign (self->fit, 0);
  gtk_label_set_max_width_chars (self->fit, 38);
  gtk_box_append (GTK_BOX (box), build_repeat (self));
  gtk_box_append (GTK_BOX (box), fit);
  gtk_box_append (GTK_BOX (box), build_centre (self));
  gtk_box_append (GTK_BOX (box), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++)
    add_choice (self, GTK_BOX (box), i);
  return box;
}

static void
bw_symmetry_button_dispose (GObject *object)
{
  BwSymmetryButton *self = BW_SYMMETRY_BUTTON (object);
  g_clear_pointer (&self->button, gtk_widget_unparent);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_symmetry_button_parent_class)->dispose (object);
}

static void
bw_symmetry_button_class_init (BwSymmetryButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_symmetry_button_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CLOSED] = g_signal_new ("closed", BW_TYPE_SYMMETRY_BUTTON, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
}

/* Another name and another look as soon as strokes are carried on, so that nobody draws six beads
 * unawares. */
static GtkWidget *
build_face (BwSymmetryButton *self)
{
  GtkWidget *face = bw_named_icon_new ("bandwright-symmetry-symbolic", _ ("Symmetry"));
  self->face = BW_NAMED_ICON (face);
  return face;
}

/* The arrow keys go on from what is chosen. */
static void
on_opened (BwSymmetryButton *self)
{
  gtk_widget_grab_focus (self->choice[chosen (self)]);
}

static gboolean
tell_closed (gpointer self)
{
  g_signal_emit (self, signals[CLOSED], 0);
  return G_SOURCE_REMOVE;
}

/* Newer toolkits give the focus to the button once they have told this: it is told on after that.
 */
static void
on_closed (BwSymmetryButton *self)
{
  g_idle_add_full (G_PRIORITY_HIGH, tell_closed, g_object_ref (self), g_object_unref);
}

/* Small windows and large text scroll. */
static void
bw_symmetry_button_init (BwSymmetryButton *self)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_child (GTK_MENU_BUTTON (self->button), build_face (self));
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (self->button), FALSE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), CONTENT_MOST_PX);
  /* A list that is cut shows that it goes on. */
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scroller), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), build_content (self));
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  g_signal_connect_object (popover, "show", G_CALLBACK (on_opened), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (popover, "closed", G_CALLBACK (on_closed), self, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), popover);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

void
bw_symmetry_button_open (BwSymmetryButton *self)
{
  g_return_if_fail (BW_IS_SYMMETRY_BUTTON (self));
  gtk_menu_button_popup (GTK_MENU_BUTTON (self->button));
}

static void
on_changed (BwSymmetryButton *self, guint what, BwProject *project)
{
  if (what & BW_CHANGED_DESIGN && project == bw_session_get_project (self->session))
    show (self);
}

static void
on_project (BwSymmetryButton *self)
{
  g_signal_connect_object (bw_session_get_project (self->session), "changed",
                           G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  show (self);
}

void
bw_symmetry_button_bind (BwSymmetryButton *self, BwSession *session)
{
  g_return_if_fail (BW_IS_SYMMETRY_BUTTON (self) && self->session == NULL);
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "symmetry-changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (on_project), self,
                           G_CONNECT_SWAPPED);
  on_project (self);
}
