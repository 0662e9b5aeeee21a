/* SPDX-License-Identifier: GPL-3.0-or-later */
/* In what two states of one project differ, in the maker's words. */
#pragma once

#include "project/project.h"

/* Sentences, the weightiest first; empty when they mean the same. here is what the maker sees, file
 * what is in the file. NULL-terminated, owned. */
char **bw_project_differences (BwProject *here, BwProject *file);
