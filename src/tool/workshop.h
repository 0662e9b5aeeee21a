/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands that read the maker's book. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

/* What goes to standard output, owned; NULL with an error that names the book. */
char *bw_workshop_run_hands (const BwOptions *options, GError **error);

/* The maker's own kinds of bead, or the one named; the stash. */
char *bw_workshop_run_beads (const BwOptions *options, GError **error);
char *bw_workshop_run_stash (const BwOptions *options, GError **error);
/* Trays, stones and habits of the maker's own. */
char *bw_workshop_run_trays (const BwOptions *options, GError **error);
char *bw_workshop_run_stones (const BwOptions *options, GError **error);
char *bw_workshop_run_habits (const BwOptions *options, GError **error);
/* Puts what another book has into the maker's; prints nothing. */
char *bw_workshop_run_read_in (const BwOptions *options, GError **error);

/* Makes sizes and stash of the book those that the project's commands know. FALSE with an error
 * that names the book. */
gboolean bw_workshop_know (const BwOptions *options, GError **error);

/* Whether what the book told came true. */
char *bw_workshop_run_calibrate (const BwOptions *options, GError **error);

/* Puts what the project says of the hands into the book; prints nothing. */
char *bw_workshop_run_note (BwProject *project, const BwOptions *options, GError **error);

/* The same of a project's ways, by what the book says of the hands. */
char *bw_workshop_run_ways (BwProject *project, const BwOptions *options, GError **error);
