/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window on the saved piece "Kelp lantern", for the tests of what becomes of a file. */
#pragma once

#include "maker.h"

typedef struct {
  Maker maker;
  char *path;
  char *before; /* the file as it was opened */
} Bench;

static char *
save_kelp (void)
{
  g_autoptr (BwProject) project = bw_project_new ();
  bw_project_set_title (project, "Title", "Kelp lantern");
  return maker_save (project, "kelp.bandwright");
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->path = save_kelp ();
  bench->before = maker_read (bench->path);
  maker_start (&bench->maker, bench->path);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  maker_stop (&bench->maker);
  g_free (bench->path);
  g_free (bench->before);
  g_free (bench);
  return 0;
}
