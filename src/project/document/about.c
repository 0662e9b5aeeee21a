/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table for the file, the window and the cover. */
#include "config.h"

#include "project/document/about.h"

#include <glib/gi18n-lib.h>

static const struct {
  const char *key, *name;
} abouts[BW_N_ABOUT] = {
  [BW_ABOUT_MAKER] = { "maker", N_ ("Designed by") },
  [BW_ABOUT_LICENCE] = { "licence", N_ ("Licence") },
  [BW_ABOUT_VERSION] = { "version", N_ ("Version") },
  [BW_ABOUT_SKILL] = { "skill", N_ ("Skill") },
  [BW_ABOUT_HOURS] = { "hours", N_ ("Hours") },
};

const char *
bw_about_key (BwAbout about)
{
  return abouts[about].key;
}

const char *
bw_about_name (BwAbout about)
{
  return _ (abouts[about].name);
}
