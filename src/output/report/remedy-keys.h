/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a remedy comes to in the project file: for programs that write it there themselves. */
#pragma once

#include "core/band/remedy.h"
#include "output/report/answer.h"
#include "project/project.h"

/* Writes "key", the JSON Pointer of the remedy's value, and "also", a list of {key, value} that
 * must be written after it, so that the file means the remedy's design exactly; null stands for a
 * key to leave out. The value of a bed is a change, so the thickness itself is in "also". */
void bw_answer_remedy_keys (BwAnswer *json, BwProject *project, const BwRemedy *remedy);

/* The same of any other design, as one list of {key, value} under `key`: written into the file they
 * give exactly that design. Another bead drops the strip lengths measured with the old one. */
void bw_answer_changes (BwAnswer *json, const char *key, BwProject *project, const BwDesign *then);
