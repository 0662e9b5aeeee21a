/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All the tools there are, and which one a press takes. */
#pragma once

#include "editor/tool/tool.h"

/* The tool of a kind. Never NULL. */
const BwTool *bw_tool_get (BwToolKind kind);

/* The tool that a press at this point takes: the one in hand, but inside a selection the select
 * tools move it. */
const BwTool *bw_tool_at (BwSession *session, const BwBandLayout *layout, BwBandPoint at);
