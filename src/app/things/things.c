/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/things.h"

#include "app/ask/tell.h"

#include <glib/gi18n-lib.h>

typedef struct {
  const BwThings *things;
  gpointer before, after; /* owned; either may be NULL */
} Change;

static void
change_free (gpointer data)
{
  Change *change = data;
  g_free (change->before);
  g_free (change->after);
  g_free (change);
}

static gboolean
do_change (BwBook *book, gpointer data, GError **error)
{
  const Change *change = data;
  return change->things->change (book, change->before, change->after, error);
}

void
bw_things_change (const BwThings *things, BwWorkbook *book, gconstpointer before,
                  gconstpointer after, BwWorkbookTold told, gpointer asker)
{
  Change *change = g_new0 (Change, 1);
  *change = (Change){ things, g_memdup2 (before, things->bytes), g_memdup2 (after, things->bytes) };
  bw_workbook_try (book, do_change, change, change_free, told, asker);
}

void
bw_things_tell_unchanged (GtkWidget *widget, const char *why)
{
  g_autofree char *words = g_strdup_printf (_ ("Your book is as it was: %s"), why);
  bw_tell (widget, GTK_MESSAGE_WARNING, words);
}
