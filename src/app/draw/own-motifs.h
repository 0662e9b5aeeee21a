/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs of the maker's own: pieces of beadwork kept as files in the maker's folder, with their
 * colours, to be laid on any band. */
#pragma once

#include "editor/tool/clip.h"

typedef struct {
  char *name;
  BwTray tray; /* the colours it was saved with */
  BwClip *clip;
} BwOwnMotif;

void bw_own_motif_free (BwOwnMotif *motif);

/* All that can be read, by name; of BwOwnMotif. *damaged: the name of a file that cannot, NULL when
 * there is none. Both owned. */
GPtrArray *bw_own_motifs_load (char **damaged);
/* The beads selected, under a name that no file has yet: the one given, or with a number. NULL with
 * a G_IO_ERROR; else the name, owned. */
char *bw_own_motif_save (const BwDrawing *drawing, const BwRegion *region, const BwTray *tray,
                         const char *name, GError **error);
/* As the clipboard has beads, in the colours of this tray that come nearest to its own. Owned. */
char *bw_own_motif_for (const BwOwnMotif *motif, const BwTray *tray);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwOwnMotif, bw_own_motif_free)
