/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was typed but cannot stand yet.
 *
 * Measurements depend on each other: a shorter stone is wrong while the old shoulder stands, and
 * the lower shoulder may be wrong while the old length stands. A value that cannot stand is kept
 * beside the design as it was typed, with its reason, and tried again together with whatever is
 * typed next; the design itself is always sound. */
#pragma once

#include "app/form/field.h"
#include "project/project.h"

typedef struct {
  BwField field;
  char *text;         /* as typed */
  gboolean is_number; /* it could be read; only then is it tried again */
  gboolean is_clear;  /* an optional value emptied */
  double value;
  char *reason; /* one sentence */
  char *blamed; /* pointer the fault names; NULL for none. May be another field's */
} BwPending;

/* A list of BwPending, owned by the caller. */
GPtrArray *bw_pendings_new (void);
/* Borrowed; NULL when this field has nothing pending. */
const BwPending *bw_pendings_find (GPtrArray *pendings, const char *pointer);
void bw_pendings_drop (GPtrArray *pendings, const char *pointer);

/* Tries what was typed into a field: with everything pending, else alone, else with each single
 * one. TRUE: *result is a design that the project takes, and what went into it is no longer
 * pending. FALSE: what was typed is pending with its reason. Empty text clears an optional field.
 */
gboolean bw_pendings_offer (GPtrArray *pendings, BwProject *project, const BwField *field,
                            const char *text, BwUnit unit, BwDesign *result);
/* Tries again what is pending after the design changed in another way. TRUE: *result is another
 * design that the project takes. */
gboolean bw_pendings_retry (GPtrArray *pendings, BwProject *project, BwDesign *result);
