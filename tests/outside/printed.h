/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A printed file and what the poppler tools (poppler-utils 22.12) read in it. */
#pragma once

#include "output/page/sheet.h"

typedef struct {
  char *folder, *pdf;
} Printed;

/* An empty folder for what is printed. Owned. */
Printed *printed_new (void);
/* Takes the folder away with what lies in it. */
void printed_free (Printed *printed);

/* Takes the sheet and prints it. */
void printed_print (const Printed *printed, BwSheet *taken);

/* Runs a tool; its standard output, owned. Ends the test where it does not end well. */
char *printed_run (const char *const *argv);

/* All text in the order in which it was drawn, a form feed after each page. Owned. */
char *printed_text (const Printed *printed);

/* A word as it stands on its page; points from the top left corner. */
typedef struct {
  int page; /* from 1 */
  double x0, y0, x1, y1;
  char *text;
} PrintedWord;

typedef struct {
  double width, height;
} PrintedPage;

/* *pages: an array of PrintedPage. Both owned. */
GArray *printed_words (const Printed *printed, GArray **pages);

/* A page in grey, eight bits a dot, row by row. */
typedef struct {
  int width, height;
  guint8 *dots; /* owned */
} PrintedGrey;

/* All pages: an array of PrintedGrey. Owned. */
GArray *printed_grey (const Printed *printed, int dpi);

/* A design of the three that are shipped, or NULL after the last. */
BwProject *printed_demo (int i);
