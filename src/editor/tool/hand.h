/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hand that holds a tool: it turns presses, moves and releases into one step of undo. Knows no
 * widget, so that every stroke can be drawn by a test. */
#pragma once

#include "editor/tool/tool.h"

typedef struct _BwHand BwHand;

BwHand *bw_hand_new (BwSession *session); /* keeps a reference */
void bw_hand_free (BwHand *hand);         /* reverts what is under way */

/* Begins with a tool at a point of the band. What was under way is finished first. */
void bw_hand_begin (BwHand *hand, const BwTool *tool, const BwBandLayout *layout, BwBandPoint at);
/* Goes on to a point, and lets go there. Nothing happens when nothing is under way. */
void bw_hand_update (BwHand *hand, BwBandPoint at);
void bw_hand_end (BwHand *hand, BwBandPoint at);
/* Keys held (flags of BwHeld); a change while a tool is at work shows at once. */
void bw_hand_set_held (BwHand *hand, guint held);
/* Keeps what has been done so far, as letting go where it is now would. */
void bw_hand_commit (BwHand *hand);
/* Takes everything back since bw_hand_begin(). Until the next begin, moves do nothing. */
void bw_hand_revert (BwHand *hand);

gboolean bw_hand_busy (BwHand *hand);
/* The tool under way, NULL when there is none. */
const BwTool *bw_hand_get_tool (BwHand *hand);

/* How large what is pulled is now; owned by the caller. NULL when nothing with a size is under way.
 */
char *bw_hand_words (BwHand *hand);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwHand, bw_hand_free)
