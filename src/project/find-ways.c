/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "project/find-ways.h"

#include "project/document/document.h"
#include "project/file/sizes.h"

struct _BwWaysQuestion {
  BwDesign design;
  BwProgress progress; /* what of it a try-on was read of; the rest is empty */
  BwStone stone;
  GArray *beads; /* of BwWaysBead */
  BwWaysAsk ask; /* points at the above */
};

/* The gauge that another bead begins with: its size, and what the hands say of it. */
static BwWaysBead
other_bead (const BwBead *size, const BwBookHands *hands)
{
  BwWaysBead bead = { .bead = *size };
  int pieces;
  bead.gauge = (BwGauge){ .column_mm = size->length_mm, .pitch_mm = size->diameter_mm };
  if (hands && hands->n_kinds > 0) {
    bead.gauge.has_hands = TRUE;
    bead.gauge.hands = bw_book_hands_of (hands, size->name, size->diameter_mm, &pieces);
    bead.gauge.pitch_mm = bead.gauge.hands.pitch_mm;
  }
  bead.pitch = bw_gauge_pitch (&bead.gauge, NULL, 0);
  return bead;
}

/* The project's own bead first, as it is known by now; then all others there are. */
static GArray *
gather_beads (const BwDesign *design, const BwBookHands *hands)
{
  GArray *beads = g_array_new (FALSE, FALSE, sizeof (BwWaysBead));
  g_autoptr (GArray) sizes = bw_sizes_near (&design->bead, BW_SIZES_TRIED);
  BwWaysBead own = { design->bead, design->gauge, design->pitch };
  g_array_append_val (beads, own);
  for (guint i = 0; i < sizes->len; i++) {
    const BwBead *size = &g_array_index (sizes, BwBead, i);
    BwWaysBead bead = other_bead (size, hands);
    if (!bw_bead_same_size (size, &design->bead))
      g_array_append_val (beads, bead);
  }
  return beads;
}

BwWaysQuestion *
bw_ways_question_new (BwProject *project, const BwBookHands *hands)
{
  BwWaysQuestion *self = g_new0 (BwWaysQuestion, 1);
  self->design = *bw_project_get_design (project);
  self->stone = *bw_project_stone (project);
  self->beads = gather_beads (&self->design, hands);
  self->progress.rows_done = bw_project_get_rows_done (project);
  self->progress.tried = *bw_project_get_tried (project);
  double covered = bw_design_span (&self->design).width_mm / self->stone.length_mm;
  self->ask = (BwWaysAsk){
    .design = &self->design,
    .stone = &self->stone,
    .beads = (const BwWaysBead *)(void *)self->beads->data,
    .n_beads = (int)self->beads->len,
    .wish
    = { .coverage = covered, .coverage_least = 0.5 * covered, .coverage_most = 1.6 * covered },
  };
  return self;
}

void
bw_ways_question_free (BwWaysQuestion *self)
{
  g_array_unref (self->beads);
  g_free (self);
}

BwWaysWish *
bw_ways_question_wish (BwWaysQuestion *self)
{
  return &self->ask.wish;
}

void
bw_ways_question_hang (BwWaysQuestion *self)
{
  if (self->design.bail.style == BW_BAIL_NONE)
    self->design.bail.style = BW_BAIL_FLAP;
}

typedef struct {
  const BwWaysAsk *ask;
  gboolean coarse;
  const int *stop;
  int *done;
  int n_shares, next, finished; /* atomic */
  GMutex lock;
  GArray *ways;
} Crew;

static void
join (gpointer thread)
{
  g_thread_join (thread);
}

static gpointer
work (gpointer data)
{
  Crew *crew = data;
  for (int share; (share = g_atomic_int_add (&crew->next, 1)) < crew->n_shares;) {
    g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (BwWay));
    bw_ways_search (crew->ask, share, crew->coarse, crew->stop, own);
    g_mutex_lock (&crew->lock);
    g_array_append_vals (crew->ways, own->data, own->len);
    g_mutex_unlock (&crew->lock);
    int finished = g_atomic_int_add (&crew->finished, 1) + 1;
    if (crew->done)
      g_atomic_int_set (crew->done, 1000 * finished / crew->n_shares);
  }
  return NULL;
}

/* A try-on goes with the way as it will go with the project; the chances are then those that the
 * project will tell. FALSE: with it the way is not snug. */
static gboolean
believe (const BwWaysQuestion *self, BwWay *way)
{
  BwProgress now = self->progress, next;
  if (now.tried.rows > way->design.band.rows)
    now.tried = (BwTried){ 0 };
  bw_progress_follow (&now, &self->design, &way->design, &next);
  bw_design_believe (&way->design, &self->stone, &next);
  return bw_way_tell_chances (way, &self->stone);
}

/* Those of the front that are snug as the project will know them. */
static void
believe_all (const BwWaysQuestion *self, GArray *ways)
{
  guint kept = 0;
  for (guint i = 0; i < ways->len; i++)
    if (believe (self, &g_array_index (ways, BwWay, i)))
      g_array_index (ways, BwWay, kept++) = g_array_index (ways, BwWay, i);
  g_array_set_size (ways, kept);
}

GArray *
bw_ways_question_answer (const BwWaysQuestion *self, gboolean coarse, int limit, guint seed,
                         const int *stop, int *done)
{
  Crew crew = { .ask = &self->ask, .coarse = coarse, .stop = stop, .done = done };
  guint n = CLAMP (g_get_num_processors (), 1, 16);
  g_autoptr (GPtrArray) threads = g_ptr_array_new_with_free_func (join);
  g_autoptr (GArray) ways = g_array_new (FALSE, FALSE, sizeof (BwWay));
  g_mutex_init (&crew.lock);
  crew.n_shares = bw_ways_n_shares (&self->ask);
  crew.ways = ways;
  for (guint i = 1; i < n; i++) {
    GThread *thread = g_thread_try_new ("ways", work, &crew, NULL);
    if (thread)
      g_ptr_array_add (threads, thread);
  }
  work (&crew);
  g_ptr_array_set_size (threads, 0);
  g_mutex_clear (&crew.lock);
  bw_ways_front (ways);
  if (self->progress.tried.rows > 0)
    believe_all (self, ways);
  return bw_ways_choose (ways, limit, seed);
}
