/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document as plain values. What undo needs whole is an immutable, reference-counted value that
 * a step of history shares; the two drawings, which are large, change in place and are undone by
 * patches. Private to this room. */
#pragma once

#include "core/pattern/drawing.h"
#include "core/band/try-on.h"
#include "core/pattern/made.h"
#include "core/design/gauge.h"
#include "project/document/about.h"
#include "project/document/done.h"
#include "project/document/examples.h"
#include "project/document/keys.h"
#include "project/document/touched.h"
#include "project/document/tray.h"
#include <json-glib/json-glib.h>

typedef enum { BW_CANVAS_BAND, BW_CANVAS_BAIL, BW_N_CANVASES } BwCanvas;

/* How much of a canvas was ever shown. Cells beyond it were never drawn, whatever they hold. */
typedef struct {
  int columns, rows;
} BwSeen;

typedef struct {
  BwDesign design;
  BwExamples examples; /* of the stone; in no file */
  BwSeen seen[BW_N_CANVASES];
} BwFrame;

/* The keys of each colour that the program does not know stay with the colour. */
typedef struct {
  BwTray tray;
  JsonObject *extra[BW_TRAY_MAX];
} BwTrayValue;

typedef struct {
  int rows_done;
  int join_done;      /* steps of the join, 0 while the band is not woven */
  int bail_rows_done; /* the same */
  BwTried tried;
  int n_checks;
  BwCheck check[BW_CHECKS_MAX];
  JsonObject *extra[BW_CHECKS_MAX];
  JsonObject *tried_extra; /* of the reading */
  BwDone done;             /* beside "progress" in the file, as "finished" */
  JsonObject *done_extra;
} BwProgress;

#define BW_ID_BYTES 64 /* with its NUL */

typedef struct {
  char *title, *mineral;
  char *about[BW_N_ABOUT]; /* "" where nothing is said */
} BwText;

/* How motifs were laid, in their order. */
typedef struct {
  int n;
  BwMade made[BW_MADE_MAX];
  JsonObject *extra[BW_MADE_MAX];
} BwMotifs;

/* Everything but the cells. The members are shared; replace them, never write into them. */
typedef struct {
  BwFrame *frame;
  BwTrayValue *tray;
  BwText *text;
  BwProgress *progress;
  BwMotifs *motifs;
} BwHead;

typedef struct {
  BwHead head;
  BwDrawing *drawing[BW_N_CANVASES]; /* the bail's is NULL until there was a bail */
  BwTouched touched;                 /* cells of both, shown or hidden */
  char *id; /* of the piece, the same in all that is told of it; NULL when nobody asked for one */
  GHashTable *extras; /* JSON Pointer of an object → JsonObject of the keys not known there */
} BwDocument;

/* Values with their defaults, filled by their maker before anybody shares them. */
BwFrame *bw_frame_new (const BwFrame *from); /* NULL: the defaults of a design, nothing seen */
BwTrayValue *bw_tray_value_new (void);       /* the plain tray */
BwText *bw_text_new (const char *title, const char *mineral);
/* The same but for one of them. */
BwText *bw_text_with_title (const BwText *text, const char *title);
BwText *bw_text_with_mineral (const BwText *text, const char *mineral);
BwText *bw_text_with_about (const BwText *text, BwAbout about, const char *words);
BwProgress *bw_progress_new (void);
/* The same values; the keys that the program does not know are left to bw_progress_inherit(). */
BwProgress *bw_progress_like (const BwProgress *from);
BwMotifs *bw_motifs_new (void); /* none */

void bw_frame_unref (BwFrame *frame);
void bw_tray_value_unref (BwTrayValue *tray);
void bw_text_unref (BwText *text);
void bw_progress_unref (BwProgress *progress);
void bw_motifs_unref (BwMotifs *motifs);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwFrame, bw_frame_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwTrayValue, bw_tray_value_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwText, bw_text_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwProgress, bw_progress_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwMotifs, bw_motifs_unref)

/* A new tray or progress takes over the unknown keys of the old one's colours (by letter, else by
 * place when no colour came or went) or checks (by value, else by place). */
void bw_tray_value_inherit (BwTrayValue *tray, const BwTrayValue *old);
void bw_progress_inherit (BwProgress *progress, const BwProgress *old);
/* The same for motifs, by value. */
void bw_motifs_inherit (BwMotifs *motifs, const BwMotifs *old);

/* Shares the values of from; head must be empty. */
void bw_head_share (BwHead *head, const BwHead *from);
void bw_head_clear (BwHead *head);
/* Replaces every value of head by those of from. */
void bw_head_assign (BwHead *head, const BwHead *from);
/* Equal by meaning: what was ever seen beyond the canvases does not count. */
gboolean bw_head_equal (const BwHead *a, const BwHead *b);

/* An empty document with every default; stone, bead, columns and drawings still want filling. */
BwDocument *bw_document_new (void);
void bw_document_free (BwDocument *document);
/* The same document, sharing nothing with this one: another thread may have it. */
BwDocument *bw_document_copy (const BwDocument *from);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwDocument, bw_document_free)

/* The size a canvas has in a design. */
void bw_document_canvas_size (const BwDesign *design, BwCanvas canvas, int *columns, int *rows);

/* The ranges that no other room checks: errors at /tray/…, /progress/…. */
gboolean bw_tray_validate (const BwTray *tray, GError **error);
gboolean bw_progress_validate (const BwProgress *progress, GError **error);

/* What becomes of progress made on one design once it is another: a reading stays with its bead and
 * its strip, and moves with bed and place; bail rows stay with their bail. TRUE when something is
 * to change; *next is filled then. Both designs must be valid. */
gboolean bw_progress_follow (const BwProgress *progress, const BwDesign *before,
                             const BwDesign *after, BwProgress *next);

/* Brings what follows from other values of the design in line: gauge from the swatch, believed
 * pitch from gauge and checks, squeeze and stretch from what is known of them. Faults at /gauge/…,
 * and at a text that is not UTF-8. */
gboolean bw_design_settle (BwDesign *design, const BwProgress *progress, GError **error);
/* And what the try-on taught. The design must be valid, and the stone its own. */
void bw_design_believe (BwDesign *design, const BwStone *stone, const BwProgress *progress);
