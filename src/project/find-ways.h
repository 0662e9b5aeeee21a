/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The joint search for a project: its stone, the beads there are, and what the maker's hands make
 * of them. */
#pragma once

#include "core/workshop/ways.h"
#include "project/book/book.h"
#include "project/project.h"

/* A question that outlives the project's next change; any thread may search for its answer. */
typedef struct _BwWaysQuestion BwWaysQuestion;

/* hands: what the maker's book says, or NULL: beads of other sizes are then guessed at by their
 * size alone. The wish is to cover about as much of the stone as
 * now, at least half of that and at most 1.6 times as much. */
BwWaysQuestion *bw_ways_question_new (BwProject *project, const BwBookHands *hands);
void bw_ways_question_free (BwWaysQuestion *question);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwWaysQuestion, bw_ways_question_free)

/* Ways with a bail are looked for, though the project may have none; before the search begins. */
void bw_ways_question_hang (BwWaysQuestion *question);

/* May be written until the search begins. Borrowed. */
BwWaysWish *bw_ways_question_wish (BwWaysQuestion *question);

/* Searches on as many threads as the machine has processors and returns up to `limit` ways, an
 * owned array of BwWay. coarse: a first look, some eight times as fast. *stop ends it early; *done
 * counts to a thousand; either may be NULL, both are touched atomically. */
GArray *bw_ways_question_answer (const BwWaysQuestion *question, gboolean coarse, int limit,
                                 guint seed, const int *stop, int *done);
