/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands of bandwright-tool, one entry each. */
#pragma once

#include "project/project.h"
#include "tool/options.h"

typedef struct {
  const char *name;
  const char *arguments; /* as the usage line shows them */
  const char *summary;   /* one line, to be translated */
  guint64 options;       /* allowed, flags of BwOption */
  guint64 required;
  /* What goes to standard output, owned; NULL with an error. "" prints nothing. */
  char *(*run) (BwProject *project, const BwOptions *options, GError **error);
  /* The same of a command that takes no project; run is then NULL. */
  char *(*run_alone) (const BwOptions *options, GError **error);
} BwCommand;

/* NULL when there is no such command. */
const BwCommand *bw_command_find (const char *name);

/* Command i, in the order the help lists them; NULL past the last. */
const BwCommand *bw_command_nth (gsize i);

/* The help of one command, or of the whole tool when command is NULL. Owned. */
char *bw_command_help (const BwCommand *command);
