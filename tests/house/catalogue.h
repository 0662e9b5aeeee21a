/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A catalogue of translations, read as the text it is. */
#pragma once

#include <glib.h>

typedef struct {
  gboolean is_format, is_fuzzy;
  char *original, *plural; /* original is NULL where there is no entry, plural where it has none */
  GPtrArray *translations; /* of char *, one for each plural form */
} CatalogueEntry;

/* The entries of a catalogue's text; owned. */
GPtrArray *catalogue_read (const char *text);
/* The same of a file below the sources; the test fails where there is none. */
GPtrArray *catalogue_load (const char *file);
