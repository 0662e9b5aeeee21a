/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the help lies: for each language a folder of pages, beside them the pictures. Installed it
 * is where the system keeps help; BANDWRIGHT_HELP_DIRS names other folders, with colons between
 * them, for a program that is not. */
#pragma once

#include <glib.h>

/* The path of a file of the help (a page with its ending, a picture) in the first of the user's
 * languages that has it, else in English; NULL when it is nowhere. Owned. */
char *bw_help_find (const char *name);
