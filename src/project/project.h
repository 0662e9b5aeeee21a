/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One document: what the maker has said, with undo and redo without limit.
 *
 * The project is the single source of truth. It holds the plain BwDesign, the drawings, the tray,
 * title, mineral and progress; every change goes through an edit that names itself, is validated
 * before it takes hold, and is one step of undo. What is derived (stone, fit, places, …) is cached
 * here, recomputed on demand and only where its inputs changed.
 *
 * A step: bw_project_begin(), any number of bw_project_set_*(), then bw_project_commit() or
 * bw_project_revert(). A set outside begin/commit is a step of its own. Steps that change nothing
 * are not kept. Inside a step every set shows at once ("changed" is emitted) so that values can be
 * dragged and strokes drawn live. */
#pragma once

#include "core/design/design.h"
#include "core/pattern/drawing.h"
#include "core/band/fit.h"
#include "core/band/forecast.h"
#include "core/bail/bail-place.h"
#include "core/bail/hang.h"
#include "core/band/join.h"
#include "core/path/materials.h"
#include "core/path/path.h"
#include "core/band/places.h"
#include "core/pattern/anew.h"
#include "core/band/remedy.h"
#include "project/book/book-habits.h"
#include "project/document/about.h"
#include "project/document/done.h"
#include "project/document/examples.h"
#include "core/band/try-on.h"
#include "core/stone/nature.h"
#include "project/document/length.h"
#include "project/document/tray.h"
#include "project/file/save-whole.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define BW_TYPE_PROJECT (bw_project_get_type ())
G_DECLARE_FINAL_TYPE (BwProject, bw_project, BW, PROJECT, GObject)

/* What a "changed" signal tells. */
typedef enum {
  BW_CHANGED_DESIGN = 1 << 0, /* anything of BwDesign, and which of it is made up */
  BW_CHANGED_CELLS = 1 << 1,  /* colours of beads, band or bail */
  BW_CHANGED_TRAY = 1 << 2,
  BW_CHANGED_TITLE = 1 << 3, /* title, mineral, what the cover tells */
  BW_CHANGED_PROGRESS = 1 << 4,
  BW_CHANGED_SHAPE = 1 << 5, /* with DESIGN: more of it than what is bought and what it costs */
  BW_CHANGED_ALL = 63,
} BwChanged;

/* Signals:
 *   "changed" (guint what)  flags of BwChanged; after every visible change, undo and redo included.
 *   "history" ()            can-undo, can-redo, modified or a label may differ. */

/* A new project: a plain invented stone with a snug plain band. Never fails. */
BwProject *bw_project_new (void);

/* The same with the prices of `supply` and the pack they are for, when these are sound. */
BwProject *bw_project_new_priced (const BwSupply *supply);

/* Begins a new project, before its first edit, from what the book says of the hands: its gauge
 * knows them when the book has pieces of its bead, bed and thread what they give when the book has
 * any that were pulled, and its rows are those that then fit. */
void bw_project_begin_with_hands (BwProject *self, const BwBookHands *hands);
/* What a new project starts with; NULL and 0: as it has it. */
typedef struct {
  const BwBead *bead;
  double needle_mm, tail_mm;
  double cord_thickness_mm, cord_width_mm; /* of the bed */
  double hanging_cord_mm;
} BwStart;
/* In a new project in which nothing was done yet: takes each that is sound there, and fits the band
 * again. No step of history. */
void bw_project_begin_with (BwProject *self, const BwStart *start);

/* The same with the habits of the book. */
void bw_project_begin_with_habits (BwProject *self, const BwHabits *habits);
/* In such a project too: puts it on a stone that was measured, none of which is made up then, with
 * as many columns as there were or as have room, as many rows as recommended, and the band in the
 * middle of the prism. FALSE with an error, and nothing done, when no band fits it. */
gboolean bw_project_begin_on_stone (BwProject *self, const BwStoneMeasures *stone,
                                    const BwStoneLook *look, const char *mineral, GError **error);

/* Reading and writing (JSON, RFC 8259). Loading is all or nothing; errors are BW_FAULT with the
 * pointer of the key, or G_IO_ERROR. Keys the program does not know are kept and written back.
 * Nothing but a regular file is read. Saving is atomic (written beside, fsync, rename) and clears
 * "modified". */
BwProject *bw_project_load (GFile *file, GError **error);
BwProject *bw_project_load_data (const char *data, gsize length, GError **error);
/* The same for any thread, stopped between two pieces of the file. per_mille, which may be NULL, is
 * set atomically to how much of the file is read. */
BwProject *bw_project_load_stoppable (GFile *file, GCancellable *stop, int *per_mille,
                                      GError **error);
/* Fails with G_IO_ERROR_WRONG_ETAG where another program has changed the project's own file since
 * it was loaded or saved last. */
gboolean bw_project_save (BwProject *self, GFile *file, GError **error);
/* how: flags of BwSaveHow. lost, which may be NULL: flags of BwSaveLost. */
gboolean bw_project_save_how (BwProject *self, GFile *file, guint how, guint *lost, GError **error);
/* What has become of the project's own file since; BW_FILE_SAME when it has none. */
BwFileState bw_project_look_at_file (BwProject *self);
/* What its own file was when it was loaded or saved last. */
const BwStamp *bw_project_get_stamp (BwProject *self); /* borrowed */
void bw_project_set_stamp (BwProject *self, const BwStamp *stamp);
/* The document as it would be saved; owned by the caller, NUL-terminated. */
char *bw_project_to_data (BwProject *self, gsize *length);
/* Where it was loaded from or last saved to; NULL for a new one. Borrowed. */
GFile *bw_project_get_file (BwProject *self);
/* Another file than before is one of which nothing is known yet. */
void bw_project_set_file (BwProject *self, GFile *file);

/* TRUE when something differs from what was last saved or loaded. */
gboolean bw_project_get_modified (BwProject *self);
void bw_project_set_modified (BwProject *self, gboolean modified);

/* Reading the document, which a trial is no part of. Pointers are borrowed and hold until the next
 * change. */
const BwDesign *bw_project_get_design (BwProject *self);
const BwDrawing *bw_project_get_drawing (BwProject *self);      /* the band's; size = band's */
const BwDrawing *bw_project_get_bail_drawing (BwProject *self); /* NULL when there is no bail */
const BwTray *bw_project_get_tray (BwProject *self);
const char *bw_project_get_title (BwProject *self);
/* What tells this piece from all others, in the maker's book; "" until one was asked for. A new
 * one is no edit: it is written with the next save. Borrowed. */
const char *bw_project_get_id (BwProject *self);
void bw_project_ensure_id (BwProject *self);
const char *bw_project_get_mineral (BwProject *self);
/* What the cover tells; "" where nothing is said. */
const char *bw_project_get_about (BwProject *self, BwAbout about);
int bw_project_get_rows_done (BwProject *self);
const BwCheck *bw_project_get_checks (BwProject *self, int *n_checks);
int bw_project_get_join_done (BwProject *self); /* steps of it */
int bw_project_get_bail_rows_done (BwProject *self);
const BwTried *bw_project_get_tried (BwProject *self); /* rows 0: nothing was read */
const BwDone *bw_project_get_done (BwProject *self);   /* rows 0: the piece is not done */

/* How the motifs of the band were laid, in their order. */
const BwMade *bw_project_get_motifs (BwProject *self, int *n_made);

/* One bead of the bail or the band. */
typedef struct {
  gboolean in_bail;
  int row, column;
} BwBeadOf;

/* For a view that keeps a picture of the beads: appends those that were set since it asked before
 * (BwBeadOf; a bead may come twice, and may be of a size no longer shown). *seen is the view's own,
 * 0 at first. FALSE when they are not told one by one, because they are too many, the drawings have
 * another size or a trial came or went: the view then looks at all. */
gboolean bw_project_touched (BwProject *self, guint64 *seen, GArray *beads);

/* Which measurements of a new project are still the ones it began with. Undo brings a mark back; a
 * project with a file has none. BW_CHANGED_DESIGN tells that it may be otherwise. */
BwExamples bw_project_get_examples (BwProject *self);
/* Whether the field of this JSON Pointer is still made up. */
gboolean bw_project_is_example (BwProject *self, const char *pointer);
/* Whether a measure that the verdict rests on is still made up: no verdict may promise anything
 * then. */
gboolean bw_project_stone_is_example (BwProject *self);

/* Changing it. label names the step for the undo menu (translated; "" inside begin/commit). All
 * return FALSE with *error set and change nothing when the result would not be sound. */
gboolean bw_project_set_design (BwProject *self, const char *label, const BwDesign *design,
                                GError **error);
/* Whether bw_project_set_design() would take it; the same error when not. Changes nothing. */
gboolean bw_project_check_design (BwProject *self, const BwDesign *design, GError **error);
/* Says which measurements are made up: a maker may confirm one by typing the same number. */
void bw_project_set_examples (BwProject *self, const char *label, const BwExamples *examples);
/* The same for a project that comes back from a safety copy: no step, and nothing to undo. */
void bw_project_recall_examples (BwProject *self, const BwExamples *examples);
/* A tray that lacks a colour some bead shown has is refused; hidden beads of it become the ground.
 */
gboolean bw_project_set_tray (BwProject *self, const char *label, const BwTray *tray,
                              GError **error);
void bw_project_set_title (BwProject *self, const char *label, const char *title);
void bw_project_set_mineral (BwProject *self, const char *label, const char *mineral);
/* One line, made so and cut after BW_LINE_MAX characters. */
void bw_project_set_about (BwProject *self, const char *label, BwAbout about, const char *words);
gboolean bw_project_set_progress (BwProject *self, const char *label, int rows_done,
                                  const BwCheck *checks, int n_checks, GError **error);
/* A reading of the strip is kept (rows 0: forgotten) and weighed into fit and forecast from then
 * on. It is forgotten when rows are picked out below it or the strip becomes another (bead,
 * columns), and moves along when the bed or the band's height does. */
gboolean bw_project_set_tried (BwProject *self, const char *label, const BwTried *tried,
                               GError **error);
/* The piece is done (rows 0: it is not, after all). */
gboolean bw_project_set_done (BwProject *self, const char *label, const BwDone *done,
                              GError **error);
/* Steps of the join that are done; 0 again when the band is another. */
gboolean bw_project_set_join_done (BwProject *self, const char *label, int steps, GError **error);
/* Rows of the bail that are woven; 0 again when the band or the bail is another. */
gboolean bw_project_set_bail_rows_done (BwProject *self, const char *label, int rows,
                                        GError **error);
/* Sets one bead. FALSE, and nothing done, where the lattice has no bead or the tray no such colour.
 */
gboolean bw_project_set_bead (BwProject *self, const char *label, gboolean in_bail, int row,
                              int column, guint8 colour);
/* Sets many beads as one change; each as bw_project_set_bead() would, later ones over earlier. */
typedef struct {
  int row, column;
  guint8 colour;
} BwBeadColour;
void bw_project_set_beads (BwProject *self, const char *label, gboolean in_bail,
                           const BwBeadColour *beads, gsize n_beads);
/* Replaces all cells of the band (or bail) by those of `drawing`, which must have its size. */
gboolean bw_project_set_drawing (BwProject *self, const char *label, gboolean in_bail,
                                 const BwDrawing *drawing, GError **error);
/* Moves colour `index` to place `to` in the tray; every bead keeps its colour. FALSE and no change
 * when either is not a place of the tray. */
gboolean bw_project_move_colour (BwProject *self, const char *label, int index, int to);
/* Puts another tray in place of this one, bead by bead: a bead of colour i, hidden ones included,
 * gets colour map[i], which the new tray must have for every colour with beads shown. */
gboolean bw_project_replace_tray (BwProject *self, const char *label, const BwTray *tray,
                                  const guint8 map[256], GError **error);
/* Puts another list of laid motifs in place of the one there; n_made 0..BW_MADE_MAX, each sound for
 * the band it names and in colours of the tray. */
void bw_project_set_motifs (BwProject *self, const char *label, const BwMade *made, int n_made);

/* The design on another stone. */

/* A new project, without title, file, progress and what was noted beside them: bead, gauge, bed,
 * thread, tray, bail and prices of this one, the motifs laid anew for the rows recommended on the
 * stone, and what was set by hand as `way` says. examples: which of the stone's measures are made
 * up still; NULL for none. A girth over the bed stays with the old stone; join and bail go to the
 * middle of the nearest face where they stood on one. left_out, which may be NULL: how many motifs
 * could not be laid there. NULL with an error when the design cannot stand on the stone. */
BwProject *bw_project_restone (BwProject *self, const BwStoneMeasures *stone,
                               const BwExamples *examples, BwAnewWay way, int *left_out,
                               GError **error);
/* What the drawing would be on its own stone, for the rows recommended now. Owned. */
BwDrawing *bw_project_draw_anew (BwProject *self, BwAnewWay way);
/* The same on its own stone, as one step: for the rows recommended now. */
gboolean bw_project_lay_anew (BwProject *self, const char *label, BwAnewWay way, int *left_out,
                              GError **error);

/* Deletes colour `index` from the tray; its beads become `replacement` (an index before removal).
 */
gboolean bw_project_remove_colour (BwProject *self, const char *label, int index, int replacement,
                                   GError **error);

/* A trial: a drawing of the band, with a tray of its own or the present one (NULL), that views show
 * before it is kept. It stands beside the document: all that is read, derived, saved or edited is
 * without it, it is no step of history, and whatever else changes the project, undo and redo
 * included, takes it back first. The undo key takes a trial back and nothing else. */

/* Shows a trial in place of the last one. label names the step it becomes when it is kept. FALSE
 * with *error set, and no trial shown, when it would not be sound or a step is open. */
gboolean bw_project_try (BwProject *self, const char *label, const BwTray *tray,
                         const BwDrawing *drawing, GError **error);
gboolean bw_project_has_trial (BwProject *self);
/* What views paint: the trial's drawing of the band and tray while there is one, else the
 * project's. Borrowed, until the next change; nothing to begin an edit on. */
const BwDrawing *bw_project_shown_drawing (BwProject *self);
const BwTray *bw_project_shown_tray (BwProject *self);
/* The trial shown is this motif, which is remembered when it is kept. */
void bw_project_trial_is (BwProject *self, const BwMade *made);
/* Both do nothing without a trial. */
void bw_project_keep_trial (BwProject *self);
void bw_project_drop_trial (BwProject *self);

/* Steps. Nested begins count; only the outermost names the step, and only its commit keeps it. A
 * revert takes back what came since its own begin. While a step is open undo and redo do nothing.
 */
void bw_project_begin (BwProject *self, const char *label);
void bw_project_commit (BwProject *self);
void bw_project_revert (BwProject *self);
gboolean bw_project_in_step (BwProject *self);

gboolean bw_project_can_undo (BwProject *self);
gboolean bw_project_can_redo (BwProject *self);
const char *bw_project_undo_label (BwProject *self); /* NULL when there is nothing to undo */
const char *bw_project_redo_label (BwProject *self);
void bw_project_undo (BwProject *self);
void bw_project_redo (BwProject *self);

/* The steps by number, 1 the oldest; those after bw_project_get_position() have been undone. Going
 * to a position, 0 (as opened) to the number of steps, undoes or redoes all between as one change.
 */
guint bw_project_count_steps (BwProject *self);
guint bw_project_get_position (BwProject *self);
const char *bw_project_step_label (BwProject *self, guint step);
void bw_project_go_to (BwProject *self, guint position);

/* Derived, cached, borrowed; valid until the next change. Never NULL: a project is always sound. */
const BwStone *bw_project_stone (BwProject *self);
/* Its needles and chips. */
const BwNature *bw_project_nature (BwProject *self);
/* As bw_mid_ring_init() has it; what the bail stands on. */
const BwRing *bw_project_mid_ring (BwProject *self);
/* The one that may be NULL: there is no bail. */
const BwBailBase *bw_project_bail_base (BwProject *self);
const BwFit *bw_project_fit (BwProject *self);
const BwForecast *bw_project_forecast (BwProject *self);
const BwJoin *bw_project_join (BwProject *self);
const BwPlaces *bw_project_places (BwProject *self);      /* of the closed ring */
const BwPlaces *bw_project_true_places (BwProject *self); /* as the strip would lie */
const BwSplay *bw_project_splay (BwProject *self);
const BwHang *bw_project_hang (BwProject *self);
const BwPath *bw_project_path (BwProject *self);
const BwMaterials *bw_project_materials (BwProject *self);
/* Of BwRemedy; borrowed. The size table includes the user's own. */
const GArray *bw_project_remedies (BwProject *self);

/* Plain translated sentences about what is doubtful though not wrong: a large closing error, splay,
 * no grip, a full hole, a bail nothing passes through, a broken repeat. Lengths are told in `unit`.
 * NULL-terminated, owned. */
char **bw_project_warnings (BwProject *self, BwUnit unit);

/* What a warning is about; each belongs to one topic. */
typedef enum {
  BW_TOPIC_STONE = 1 << 0,     /* the measurements: closing error */
  BW_TOPIC_FIT = 1 << 1,       /* closing, grip, splay, the bed, the join and its repeat */
  BW_TOPIC_HANG = 1 << 2,      /* the bail, tilt, slipping */
  BW_TOPIC_THREAD = 1 << 3,    /* full holes, a pass too long for a working length */
  BW_TOPIC_MATERIALS = 1 << 4, /* what to buy */
  BW_TOPIC_ALL = 31,
} BwTopics;

/* The warnings about some topics (flags of BwTopics) alone, in the order of bw_project_warnings(),
 * which gives all of them. NULL-terminated, owned. */
char **bw_project_warnings_about (BwProject *self, guint topics, BwUnit unit);

/* The one about corners where thread will show; NULL where there is none. Owned. */
char *bw_project_splay_words (BwProject *self, BwUnit unit);

G_END_DECLS
