/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Motifs of the maker's own: pieces of beadwork kept as files in the maker's folder, with their
 * colours, to be laid on any band. */
#pragma once

#include "editor/tool/clip.h"
#include <gio/gio.h>

typedef struct {
  char *name;
  BwTray tray; /* the colours it was saved with */
  BwClip *clip;
} BwOwnMotif;

void bw_own_motif_free (BwOwnMotif *motif);

/* All that can be read, by name; of BwOwnMotif. *damaged: the name of a file that cannot, NULL when
 * there is none. Both owned. */
GPtrArray *bw_own_motifs_load (char **damaged);
/* Whether one of this name is kept; and a name of which none is: the one wanted, or with a number.
 * Owned. */
gboolean bw_own_motif_is_kept (const char *name);
char *bw_own_motif_free_name (const char *wanted);

/* The beads selected, in the place of one of that name. NULL with a G_IO_ERROR; else the name as it
 * is kept, owned. */
char *bw_own_motif_save (const BwDrawing *drawing, const BwRegion *region, const BwTray *tray,
                         const char *name, GError **error);
/* Gives another name, and takes the place of the one that has it. NULL with a G_IO_ERROR; else the
 * name as it is kept, owned. */
char *bw_own_motif_rename (const char *name, const char *wanted, GError **error);
/* FALSE with a G_IO_ERROR. */
gboolean bw_own_motif_remove (const char *name, GError **error);

/* Writes a motif's file out, as it is kept. FALSE with a G_IO_ERROR. */
gboolean bw_own_motif_export (const char *name, GFile *file, GError **error);
/* Keeps the motif of a file under the file's name, or under that name with a number where another
 * motif has it; one that is kept already, under either, is left as it is. NULL with a G_IO_ERROR;
 * else the name it is kept by, owned. */
char *bw_own_motif_read_in (GFile *file, GError **error);

/* As the clipboard has beads, in the colours of this tray that come nearest to its own. Owned. */
char *bw_own_motif_for (const BwOwnMotif *motif, const BwTray *tray);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwOwnMotif, bw_own_motif_free)
