/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A safety copy left by a program that is gone. As long as it is held here no other program finds
 * it. Any thread. */
#pragma once

#include "app/keep/copy-file.h"
#include "project/project.h"

typedef enum {
  BW_LEFTOVER_UNSAVED, /* its project was never saved */
  BW_LEFTOVER_NEWER,   /* than the file */
  BW_LEFTOVER_OLDER,   /* the file was written after the copy */
  BW_LEFTOVER_ALONE,   /* the file is not there any more */
} BwLeftoverAge;

typedef struct {
  char *path;      /* of the copy */
  char *title;     /* at most 80 characters */
  GFile *file;     /* where the project was saved last; NULL for never */
  BwStamp stamp;   /* what that file was when the project was loaded or saved last */
  char *examples;  /* which measurements were made up; NULL for none */
  GDateTime *when; /* it was written; NULL when that cannot be known */
  BwLeftoverAge age;
  int lock; /* descriptor that holds its lock; −1 where there are no locks */
} BwLeftover;

/* All of them, newest first, once what nobody will ask for is swept. Owned array of BwLeftover. A
 * disk without locks cannot tell who lives: all copies there are offered. */
GPtrArray *bw_recovery_find (void);
void bw_leftover_free (BwLeftover *leftover);

/* The copied project: modified, and with its file. Owned. */
BwProject *bw_leftover_load (const BwLeftover *leftover, GError **error);
/* The copy as that of a living program. Owned; the leftover no longer holds the lock. */
BwCopyFile *bw_leftover_adopt (BwLeftover *leftover);
/* Puts the copy among the discarded ones, where it is kept for BW_DISCARDED_DAYS. FALSE when that
 * cannot be, and then it stays where it is. */
gboolean bw_leftover_discard (const BwLeftover *leftover);
