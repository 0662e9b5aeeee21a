/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A way becomes the project. */
#pragma once

#include "app/form/draft.h"
#include "core/workshop/ways.h"

/* As one step of undo, named after the band. Strip lengths of another bead say nothing about this
 * one and are left out; of the rows woven no more stay than the way has. FALSE with *error, and
 * nothing changed, when the way does not stand. */
gboolean bw_way_take (BwDraft *draft, const BwWay *way, GError **error);
