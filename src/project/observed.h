/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was observed while a project was woven, as the maker's book takes it. */
#pragma once

#include "project/book/book.h"
#include "project/project.h"

/* Fills a piece from the project: its bead, its swatch and strip lengths, what bed and thread gave,
 * its id. What the bead or the stone, changed since, cannot have is left out. FALSE when nothing was
 * observed; *piece is to be cleared in either case. date: the day it
 * is told, "2026-11-29". */
gboolean bw_observed_piece (BwWoven *piece, BwProject *project, const char *date);

/* Whether so many rows can have come round the project's stone, at a pitch that beads of its size
 * can have; else an error at /finished/rows. */
gboolean bw_observed_check_rows (BwProject *project, int rows, GError **error);

/* Puts a piece into the book at a path, where it takes the place of what the book had of this
 * piece: its day, its thread and whether it is left out stay as they stand there, and come into
 * *piece. FALSE with an error that names no file. Any thread. */
gboolean bw_observed_put (BwWoven *piece, const char *path, GError **error);

/* Both; nothing observed is nothing to do. */
gboolean bw_observed_note (BwProject *project, const char *path, const char *date, GError **error);

/* The day as the book writes it, "2026-11-29". Owned. */
char *bw_observed_today (void);
