/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing that no decoder may draw, whatever library it uses: others that ended one version of a
 * library are drawn well by the next. */
#pragma once

#include <glib.h>

/* 120 pictures of 16 MB at once: nearly 2 GB. Owned. */
static inline char *
costly_drawing (void)
{
  g_autoptr (GString) svg = g_string_new (
      "<svg xmlns='http://www.w3.org/2000/svg' width='200' height='200'><filter id='f'>");
  for (int i = 0; i < 120; i++)
    g_string_append_printf (svg, "<feFlood flood-color='red' result='b%d'/>", i);
  g_string_append (svg, "<feMerge>");
  for (int i = 0; i < 120; i++)
    g_string_append_printf (svg, "<feMergeNode in='b%d'/>", i);
  g_string_append (svg, "</feMerge></filter>"
                        "<rect width='200' height='200' filter='url(#f)'/></svg>");
  return g_string_free (g_steal_pointer (&svg), FALSE);
}
