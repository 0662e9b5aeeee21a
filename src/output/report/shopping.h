/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The materials for a number of pieces, as the three ways of printing them need it. */
#pragma once

#include "project/project.h"

/* pieces 0: the project's own count. */
void bw_shopping_init (BwMaterials *materials, BwProject *project, int pieces);
