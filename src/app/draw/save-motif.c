/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was selected when the question was put is what is kept. */
#include "config.h"

#include "app/draw/name-motif.h"
#include "app/draw/own-motifs.h"
#include "app/draw/save-motif.h"

#include <glib/gi18n-lib.h>

typedef struct {
  BwDrawing *drawing;
  BwRegion *region;
  BwTray tray;
  BwMotifSaved told;
  gpointer data;
} Beads;

static void
beads_free (gpointer data)
{
  Beads *beads = data;
  bw_drawing_free (beads->drawing);
  bw_region_free (beads->region);
  g_free (beads);
}

static void
save (const char *wanted, gpointer data)
{
  Beads *beads = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name
      = bw_own_motif_save (beads->drawing, beads->region, &beads->tray, wanted, &error);
  g_autofree char *sentence
      = name ? g_strdup_printf (_ ("“%s” is kept among your own motifs."), name)
             : g_strdup_printf (_ ("The motif could not be kept: %s"), error->message);
  beads->told (name != NULL, sentence, beads->data);
}

void
bw_save_motif_ask (GtkWindow *parent, BwSession *session, BwMotifSaved told, gpointer data)
{
  const BwRegion *region = bw_session_get_selection (session);
  g_return_if_fail (region != NULL);
  BwProject *project = bw_session_get_project (session);
  g_autofree char *name = bw_own_motif_free_name (_ ("Motif"));
  Beads *beads = g_new0 (Beads, 1);
  beads->drawing = bw_drawing_copy (bw_project_get_drawing (project));
  beads->region = bw_region_copy (region);
  beads->tray = *bw_project_get_tray (project);
  beads->told = told;
  beads->data = data;
  bw_name_motif_ask (parent, _ ("Keep the selected beads as a motif?"), _ ("_Keep"), name, save,
                     beads, beads_free);
}
