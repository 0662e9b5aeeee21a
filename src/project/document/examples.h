/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which measurements of a new project are still those the program made up, so that every number on
 * the screen meant something. They come to be the maker's own one by one, as they are typed; what
 * is read off made-up ones (in another way of measuring, for another number of faces) is made up as
 * well. A file knows none: whoever saves a stone has called it theirs. */
#pragma once

#include "core/stone/stone.h"

/* Copied by assignment; all zero: every measurement is the maker's own. */
typedef struct {
  guint64 values; /* bit i: values_mm[i] */
  gboolean at, length, shoulder;
} BwExamples;

/* Every measurement of this stone is made up. */
BwExamples bw_examples_all (const BwStoneMeasures *stone);
/* What is still made up once `before` has become `now`: a measurement that differs is typed. */
BwExamples bw_examples_after (const BwExamples *examples, const BwStoneMeasures *before,
                              const BwStoneMeasures *now);
gboolean bw_examples_equal (const BwExamples *a, const BwExamples *b);

/* Whether the measurement of a JSON Pointer ("/stone/values_mm/2") is made up; FALSE for what is no
 * measurement. */
gboolean bw_examples_has (const BwExamples *examples, const char *pointer);
/* The measurement of a JSON Pointer is the maker's own from now on. */
void bw_examples_own (BwExamples *examples, const char *pointer);

/* The JSON Pointers of all that is made up, a blank between two; NULL when nothing is. Owned. */
char *bw_examples_to_text (const BwExamples *examples);
/* What such a text says of this stone; text may be anything, and NULL. What is no measurement of
 * the stone is passed over. */
BwExamples bw_examples_from_text (const char *text, const BwStoneMeasures *stone);
