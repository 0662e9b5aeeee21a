/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A group of the Make stage that folds away to its title and one line that says what is in it. */
#pragma once

#include "app/form/card.h"

#define BW_TYPE_MAKE_FOLD (bw_make_fold_get_type ())
G_DECLARE_FINAL_TYPE (BwMakeFold, bw_make_fold, BW, MAKE_FOLD, BwCard)

gboolean bw_make_fold_is_open (BwMakeFold *self);
