/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's book: what was woven, piece by piece, so that one piece can teach the next. It keeps
 * what was observed and never the result alone. One JSON file of the user's (RFC 8259):
 *
 *   { "format": "bandwright-book", "version": 1,
 *     "pieces": [ { "id": "…", "title": "…", "bead": "11/0 cylinder", "diameter_mm": 1.6,
 *                   "thread": "…", "date": "2026-11-29", "left_out": false,
 *                   "swatch": { the keys of the project's "gauge/swatch" },
 *                   "checks": [ { "rows": 40, "length_mm": 32.9 } ],
 *                   "stretch": { "thread_mm": 0.15, and the keys of the project's "thread/pulled"
 * }, "squeeze": { "cord_width_mm": 1, and the keys of the project's "bed/pulled" }, "finished": {
 * "rows": 114, "columns": 14, "closing_pitch_mm": 1.61, "girth_sd_mm": 0.4, "cost": 41.5,
 * "currency": "EUR", and the keys of the project's "finished" } } ] }
 *
 * Required: format, version; of a piece diameter_mm and date; of "finished" the first three; of
 * "stretch" and "squeeze" all but the tool. Read
 * as strictly as a project; keys that are not known are kept at every level and written back. */
#pragma once

#include "core/design/gauge.h"
#include "core/design/design.h"
#include "core/workshop/calibration.h"
#include "core/workshop/give-hands.h"
#include "core/workshop/hands.h"
#include "project/document/done.h"
#include <gio/gio.h>

#define BW_BOOK_PIECES_MAX 20000
#define BW_KEPT_NAME_BYTES 256 /* what is kept in the book under a name; with its NUL */
#define BW_WOVEN_ID_BYTES 64   /* as a project's id */
#define BW_WOVEN_TITLE_BYTES 256
#define BW_DATE_BYTES 11 /* "2026-11-29" and its NUL */

/* A finished count: it closed with rows / 2 beads around, on a ring that closes with exactly these
 * at closing_pitch_mm, round a girth known to girth_sd_mm. */
typedef struct {
  int rows;    /* even ≥ 6 */
  double closing_pitch_mm, girth_sd_mm;
  BwDone done;                      /* what else is known of it; its rows are these */
  double cost;                      /* of one piece; 0: not known */
  char currency[BW_CURRENCY_BYTES]; /* of cost and price; "" when neither is known */
  int columns; /* of the band; 0: not known, as in a book of an older version */
} BwWovenEnd;

/* One piece. A plain value but for checks. */
typedef struct {
  char title[BW_WOVEN_TITLE_BYTES]; /* what it is called; "" when not known */
  char id[BW_WOVEN_ID_BYTES]; /* the same for all that is told of one piece; "" when not known */
  char bead[BW_NAME_BYTES], thread[BW_NAME_BYTES]; /* "" when not known */
  double diameter_mm;                              /* the bead's, nominal */
  char date[BW_DATE_BYTES];
  gboolean left_out; /* by the maker: it says nothing about the hands */
  gboolean has_swatch;
  BwSwatch swatch;
  GArray *checks; /* of BwCheck, owned; NULL or empty when there are none */
  gboolean has_stretch;
  double thread_mm; /* the thread's diameter, by which readings of threads are told apart */
  BwStretchReading stretch;
  gboolean has_squeeze;
  double cord_width_mm; /* the bed's cord's, by which readings of cords are told apart */
  BwSqueezeReading squeeze;
  gboolean has_end;
  BwWovenEnd end;
} BwWoven;

void bw_woven_clear (BwWoven *piece);
/* Owned by the caller, to be cleared. */
BwWoven bw_woven_copy (const BwWoven *piece);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwWoven, bw_woven_clear)

/* Whether beads of this diameter can follow one another by so much in anybody's hands; both in mm. */
gboolean bw_woven_can_have (double diameter_mm, double pitch_mm);

/* Ranges, and that every strip speaks for a pitch that beads of this diameter can have. pointer is
 * where the piece stands. */
gboolean bw_woven_validate (const BwWoven *piece, const char *pointer, GError **error);

/* Leaves out what validate() would refuse, so that the rest can be kept: what was observed before
 * the bead or the stone was changed may be what these cannot have. */
void bw_woven_drop_impossible (BwWoven *piece);

/* What the piece says of the pitch, under the kind of its bead. Nothing when it is left out. */
BwHandsPiece bw_woven_hands (const BwWoven *piece, int kind);

typedef struct _BwBook BwBook;

BwBook *bw_book_new (void);
void bw_book_free (BwBook *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BwBook, bw_book_free)

/* A whole book or NULL with a fault (BW_FAULT); the same text back. */
BwBook *bw_book_from_data (const char *data, gsize length, GError **error);
char *bw_book_to_data (const BwBook *self, gsize *length);

guint bw_book_n_pieces (const BwBook *self);
/* Pieces, kinds of bead, trays, stones and what lies in the stash, all together. */
guint bw_book_n_entries (const BwBook *self);
const BwWoven *bw_book_get_piece (const BwBook *self, guint i); /* borrowed */
/* The place of the piece with this id; −1: none, and none has "". */
int bw_book_find_piece (const BwBook *self, const char *id);

/* Puts a valid piece in the place of the one with its id, or at the end. FALSE with a fault when it
 * is not valid or the book is full; the book is then as it was. */
gboolean bw_book_put_piece (BwBook *self, const BwWoven *piece, GError **error);

/* Puts a piece in the place of `before`, which was read from the book some time ago: found by its
 * id or, without one, by its place and what it says. FALSE with an error when it is not there any
 * more as it was, or the piece is not valid. */
gboolean bw_book_mend_piece (BwBook *self, guint at, const BwWoven *before, const BwWoven *piece,
                             GError **error);

/* Puts the pieces of another book in: in the place of those with their ids, else at the end; what
 * is there already word for word is not put in twice. All or nothing. */
gboolean bw_book_take_in (BwBook *self, const BwBook *other, GError **error);

/* A kind of bead that occurs in the book: one name and one diameter. */
typedef struct {
  char name[BW_NAME_BYTES];
  double diameter_mm;
  int pieces; /* that say something */
  BwHandsBelief next;
} BwBookKind;

/* What the book says of how much threads, or cords, give: of those that were pulled, by size, and
 * of others. */
typedef struct {
  double mm;  /* a thread's diameter, a cord's width */
  int pieces; /* that say something of it */
  BwGive next;
} BwBookGive;

typedef struct {
  int pieces; /* all that say something */
  int n_kinds;
  BwBookGive *kinds; /* by size; owned */
  BwGive new_kind;
} BwBookGives;

/* What the whole book says of the maker's hands. */
typedef struct {
  BwHandsSpread spread;
  gboolean fitted; /* the spread is the maker's own and not the usual one */
  BwHandsBelief hands;
  BwHandsBelief new_kind; /* of a next piece of beads never woven before */
  int n_kinds;
  BwBookKind *kinds; /* by diameter, then by name; owned */
  BwBookGives stretch, squeeze;
} BwBookHands;

void bw_book_hands_init (BwBookHands *hands, const BwBook *book);
void bw_book_hands_clear (BwBookHands *hands);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BwBookHands, bw_book_hands_clear)

/* Whether what the hands told of each piece, from those before it in the book, came true. By the
 * whole book's spread. */
void bw_book_calibrate (BwCalibration *calibration, const BwBook *book);

/* The pitch of the next piece woven of such beads, and how sure it is; *pieces tells how many of
 * this kind it rests on. */
BwGaugeHands bw_book_hands_of (const BwBookHands *hands, const char *bead, double diameter_mm,
                               int *pieces);

/* How much such a thread or cord gives in the next piece; *pieces tells how many of this size it
 * rests on, besides those of others. */
BwGive bw_book_give_of (const BwBookGives *gives, double mm, int *pieces);
