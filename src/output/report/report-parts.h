/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the reports share with one another and with nobody else. */
#pragma once

#include "output/report/answer.h"
#include "output/report/order.h"
#include "output/report/table.h"
#include "project/document/length.h"
#include "project/project.h"

/* Decimals of a millimetre of what is measured on a stone: heights, girths, openings, as on paper.
 * Beads, cord, bed and what is pulled keep hundredths; from bead to bead has a third, beside which
 * its error stands. */
#define BW_TEXT_MEASURED 1

/* A number in the user's locale; an en dash when it is not finite. Owned. */
char *bw_text_number (double value, int decimals);
/* The same with " mm". */
char *bw_text_mm (double value, int decimals);
/* A length in the maker's unit, as a number alone and with its sign: so many decimals in
 * millimetres, one more in inches. Owned. */
char *bw_text_in (double mm, BwUnit unit, int decimals);
char *bw_text_length (double mm, BwUnit unit, int decimals);
/* "mm" or "in". */
const char *bw_text_unit (BwUnit unit);
/* As finely as a maker weighs it: a tenth of a gram below ten grams, kilograms from ten on. Owned.
 */
char *bw_text_mass (double grams);
char *bw_text_count (guint64 count);

/* The title on a line of its own, underlined, and a blank line. */
void bw_text_heading (GString *text, BwProject *project, const char *report);
/* The same without the line under it, for places that have letters of more than one kind. */
void bw_text_title (GString *text, BwProject *project, const char *report);

/* A section's title on a line of its own after one blank line. */
void bw_text_section (GString *text, const char *title);

/* A sentence after "* ", broken between words so that lines stay short; what goes on is indented by
 * two blanks. */
void bw_text_item (GString *text, const char *sentence);
/* The same without "* " and indent. */
void bw_text_paragraph (GString *text, const char *sentence);

/* The report as a whole, owned; frees text. Flowing: sentences are not broken into short lines, for
 * those who break lines themselves. */
char *bw_text_done (GString *text);
char *bw_text_done_flowing (GString *text);

/* "label  value" for a table of two columns; takes value. */
void bw_text_fact (BwTable *table, const char *label, char *value);

/* A blank line, then each warning on a line; nothing when there is none. */
void bw_text_warnings (GString *text, BwProject *project, guint topics, BwUnit unit);
/* The member "warnings", a list of sentences; left out when there is none. more: one sentence of
 * the report's own, or NULL. */
void bw_answer_warnings (BwAnswer *json, BwProject *project, guint topics, const char *more);

/* How much bed and thread are taken to give, and how sure that is: members squeeze, squeeze_sd,
 * squeeze_learnt and the same of stretch. */
void bw_answer_gives (BwAnswer *json, const BwDesign *design);

/* The beads to buy, heading and sum included, and what else is to be had at hand and paid for: what
 * the printed list and the sheet both show. The first initialises its table of six columns; the
 * others add to one of two and of three columns. order: where it is told what of it lies in the
 * stash and what is to be bought; NULL where it is not. */
void bw_materials_bead_table (BwTable *table, const BwTray *tray, const BwMaterials *materials);
void bw_materials_add_other (BwTable *facts, const BwMaterials *materials, const BwDesign *design,
                             const BwOrder *order, BwUnit unit);
/* The thread for further rows that are likely, for so many pieces; nothing where there are none. */
void bw_materials_add_reserve (BwTable *facts, BwProject *project, int pieces, const BwOrder *order,
                               BwUnit unit);
void bw_materials_add_cost (BwTable *table, const BwMaterials *materials, const char *currency);

/* "Snug on paper. Weave 98 or 100: try on at row 94, then decide." Owned. */
char *bw_text_verdict (BwProject *project, BwUnit unit);
/* "58 (row 116, 8 %), 59 (row 118, 39 %)": every count with a fair chance. Owned. */
char *bw_words_likely_counts (const BwForecast *forecast);
