/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is moved or coloured should be seen to change. */
#pragma once

#include "project/session.h"

#define BW_BAIL_IN_SIGHT_DEG 55.0 /* from where the stone is looked at */

/* Turns the upright stone in the stone view as little as brings the bail in sight. */
void bw_bail_look_at (BwSession *session);
