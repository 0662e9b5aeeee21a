/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's own kinds of bead, as things of the workshop. */
#pragma once

#include "app/things/things.h"

extern const BwThings bw_kinds;
