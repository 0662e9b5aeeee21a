/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What cannot be done here and now is grey, and says why where that is not plain. */
#include "config.h"

#include "app/draw/band-menu.h"
#include "app/kit/menu-at.h"
#include "app/kit/tray-row.h"

#include <glib/gi18n-lib.h>

typedef struct {
  BwSession *session;
  int row, column;
  gboolean on_bead, selected;
} Place;

static void
add_colour (GMenu *menu, const Place *place)
{
  GMenu *section = bw_menu_section (menu);
  if (!place->on_bead)
    return;
  BwProject *project = bw_session_get_project (place->session);
  const BwTray *tray = bw_project_get_tray (project);
  const BwDrawing *drawing = bw_project_get_drawing (project);
  int index = bw_drawing_get (drawing, place->row, place->column);
  g_autofree char *name = bw_colour_words (&tray->colour[MIN (index, tray->n_colours - 1)]);
  g_autofree char *pick = g_strdup_printf (_ ("Pick Up “%s”"), name);
  g_autofree char *all = g_strdup_printf (_ ("Select All “%s”"), name);
  bw_menu_add (section, pick, "beads.pick");
  bw_menu_add (section, all, "beads.select-colour");
}

/* Why nothing can be rubbed out here: the selection or, without one, the bead pointed at. */
static char *
rub_out_words (const Place *place)
{
  if (!place->selected && bw_session_is_locked (place->session, place->column))
    return g_strdup_printf (_ ("Rub Out (column %d is locked)"), place->column);
  return g_strdup (_ ("Rub Out"));
}

static void
add_piece (GMenu *menu, const Place *place)
{
  GMenu *section = bw_menu_section (menu);
  gboolean locked = !place->selected && bw_session_is_locked (place->session, place->column);
  g_autofree char *rub_out = rub_out_words (place);
  bw_menu_add (section, _ ("Cut"), place->selected ? "beads.cut" : NULL);
  bw_menu_add (section, _ ("Copy"), place->selected ? "beads.copy" : NULL);
  bw_menu_add (section, _ ("Paste"), "beads.paste");
  bw_menu_add (section, rub_out,
               (place->selected || place->on_bead) && !locked ? "beads.erase" : NULL);
}

static void
add_turns (GMenu *menu, const Place *place)
{
  GMenu *section = bw_menu_section (menu);
  bw_menu_add (section, _ ("Flip Round the Stone"), place->selected ? "beads.flip-round" : NULL);
  bw_menu_add (section, _ ("Flip Up and Down"), place->selected ? "beads.flip-up" : NULL);
  bw_menu_add (section, _ ("Half-Turn"), place->selected ? "beads.turn" : NULL);
  bw_menu_add (section, _ ("Move"), place->selected ? "beads.lift" : NULL);
  bw_menu_add (section, _ ("Save as Motif…"), place->selected ? "beads.save-motif" : NULL);
}

static void
add_locks (GMenu *menu, const Place *place)
{
  GMenu *section = bw_menu_section (menu);
  if (place->column > 0) {
    g_autofree char *words = g_strdup_printf (bw_session_is_locked (place->session, place->column)
                                                  ? _ ("Unlock Column %d")
                                                  : _ ("Lock Column %d"),
                                              place->column);
    bw_menu_add (section, words, "beads.lock");
  }
  bw_menu_add (section, _ ("Unlock All Columns"),
               bw_session_count_locked (place->session) > 0 ? "beads.unlock-all" : NULL);
}

/* What concerns a whole row or column, asked for on its number. */
static GMenu *
line_menu (const Place *place)
{
  GMenu *menu = g_menu_new (), *section = bw_menu_section (menu);
  gboolean column = place->column > 0;
  const BwTray *tray = bw_project_get_tray (bw_session_get_project (place->session));
  g_autofree char *colour = bw_colour_words (&tray->colour[bw_session_get_colour (place->session)]);
  g_autofree char *fill
      = g_strdup_printf (column ? _ ("Fill Column %d with “%s”") : _ ("Fill Row %d with “%s”"),
                         column ? place->column : place->row, colour);
  g_autofree char *select = g_strdup_printf (column ? _ ("Select Column %d") : _ ("Select Row %d"),
                                             column ? place->column : place->row);
  gboolean locked = column && bw_session_is_locked (place->session, place->column);
  bw_menu_add (section, fill, locked ? NULL : "beads.fill-line");
  bw_menu_add (section, select, "beads.select-line");
  return menu;
}

GMenuModel *
bw_band_menu_new (BwSession *session, int row, int column)
{
  Place place
      = { session, row, column, row > 0 && column > 0, bw_session_get_selection (session) != NULL };
  if (!place.on_bead && (row > 0 || column > 0)) {
    GMenu *line = line_menu (&place);
    add_locks (line, &place);
    return G_MENU_MODEL (line);
  }
  GMenu *menu = g_menu_new ();
  add_colour (menu, &place);
  add_piece (menu, &place);
  add_turns (menu, &place);
  add_locks (menu, &place);
  return G_MENU_MODEL (menu);
}
