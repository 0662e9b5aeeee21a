/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whoever follows the words makes the piece, whatever the count of rows turns out to be; and the
 * drawings show the very way that is told. Neither the reader nor the weaver shares code with what
 * writes the words. */
#include "output/report/report.h"
#include "output/sheet/step-layout.h"
#include "project/project.h"
#include "weaver.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#define DESIGNS 300
#define OFF 4 /* rows more and fewer than planned */

static BwProject *
load (const Sample *sample)
{
  g_autofree char *json = sample_json (sample);
  g_autoptr (GError) error = NULL;
  BwProject *project = bw_project_load_data (json, strlen (json), &error);
  if (!project)
    fail_msg ("%s\n%s", error->message, json);
  return project;
}

/* A design of any sort: with a bail of each kind or none, by the join or anywhere, rows that fit or
 * do not, a pattern that repeats or does not, threads long and short. */
static Sample *
random_sample (GRand *rand, int i)
{
  static const char *const places[] = { NULL, "0", "60", "100.5", "171", "188", "240", "300" };
  static const char *const lengths[] = { NULL, "900", "700", "1300", "20000" };
  int rows = i % 3 == 0 ? 0 : 2 * g_rand_int_range (rand, 20, 75);
  Sample *sample = sample_new (rand, 2 * g_rand_int_range (rand, 2, 12), rows, i % 5);
  sample->working_mm = lengths[g_rand_int_range (rand, 0, G_N_ELEMENTS (lengths))];
  sample->at_deg = places[g_rand_int_range (rand, 0, G_N_ELEMENTS (places))];
  int repeat = 2 * g_rand_int_range (rand, 1, 12);
  for (int row = repeat; i % 2 && row < sample->rows; row++) {
    g_free (sample->cells->pdata[row]);
    sample->cells->pdata[row] = g_strdup (sample->cells->pdata[row - repeat]);
  }
  return sample;
}

/* The least even number of rows after which all come again, at most half of them; 0: none. */
static int
repeat_of (const Sample *sample)
{
  for (int k = 2; k <= sample->rows / 2; k += 2) {
    int row = k;
    while (row < sample->rows
           && g_str_equal (sample->cells->pdata[row], sample->cells->pdata[row - k]))
      row++;
    if (row == sample->rows)
      return k;
  }
  return 0;
}

/* The letter most beads have, the first in the tray of several. */
static char
ground_of (const Sample *sample)
{
  int count[256] = { 0 };
  char most = 'a';
  for (guint row = 0; row < sample->cells->len; row++)
    for (const char *c = sample->cells->pdata[row]; *c; c++)
      count[(guint8)*c]++;
  for (char c = 'a'; c <= 'h'; c++)
    if (count[(guint8)c] > count[(guint8)most])
      most = c;
  return most;
}

/* The band with so many rows: cut, or run on. */
static GPtrArray *
cells_of (const Sample *sample, int rows)
{
  GPtrArray *cells = g_ptr_array_new_with_free_func (g_free);
  int repeat = repeat_of (sample);
  for (int row = 0; row < rows; row++)
    if (row < sample->rows)
      g_ptr_array_add (cells, g_strdup (sample->cells->pdata[row]));
    else if (repeat)
      g_ptr_array_add (cells, g_strdup (cells->pdata[row - repeat]));
    else
      g_ptr_array_add (cells, g_strnfill ((gsize)sample->columns / 2, ground_of (sample)));
  return cells;
}

static Hands
hands_of (BwProject *project)
{
  const BwDesign *design = bw_project_get_design (project);
  double play = design->bead.hole_mm - design->thread.diameter_mm;
  return (Hands){ .column = design->gauge.column_mm,
                  .pitch = design->gauge.pitch_mm,
                  .jog = MAX (0, design->gauge.pitch_mm / 2 - play),
                  .tail = design->thread.tail_mm,
                  .working = design->thread.working_mm };
}

/* Weaves the piece with every count near the planned one. Odd counts cannot be closed: of these the
 * band alone is woven. */
static int
weave_all_counts (const Sample *sample, BwProject *project, const GArray *told)
{
  int closed = 0;
  for (int rows = sample->rows - OFF; rows <= sample->rows + OFF; rows++) {
    g_autoptr (GPtrArray) cells = cells_of (sample, rows);
    g_autoptr (GArray) part = g_array_new (FALSE, FALSE, sizeof (Told));
    Weaver weaver = { .sample = sample, .hands = hands_of (project), .rows = rows, .cells = cells };
    for (guint i = 0; i < told->len; i++) {
      const Told *one = &g_array_index (told, Told, i);
      if (rows % 2 && one->kind >= TOLD_STOPPER)
        break;
      g_array_append_val (part, *one);
    }
    weaver_follow (&weaver, part);
    assert_int_equal (weaver.closed, rows % 2 == 0);
    closed += weaver.closed;
    weaver_clear (&weaver);
  }
  return closed;
}

static void
whoever_follows_the_words_makes_the_piece_whatever_the_count (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3001);
  int closed = 0;
  for (int i = 0; i < DESIGNS; i++) {
    g_autoptr (Sample) sample = random_sample (rand, i);
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
    g_autoptr (GArray) told = told_read (sample, words);
    closed += weave_all_counts (sample, project, told);
  }
  assert_int_equal (closed, DESIGNS * (OFF + 1));
}

/* --- The drawings ------------------------------------------------------------------------------
 */

/* The number a label stands for: "12", "L−3", "F+2". */
static int
number_of (const char *text, int rows, int foot)
{
  if (g_ascii_isdigit (*text))
    return atoi (text);
  int on = 0;
  if (g_str_has_prefix (text + 1, "−"))
    on = -atoi (text + 1 + strlen ("−"));
  else if (text[1] == '+')
    on = atoi (text + 2);
  int row = (*text == 'L' ? rows : foot) + on;
  return ((row - 1) % rows + rows) % rows + 1;
}

typedef struct {
  const BwStepLayout *layout;
  const Sample *sample;
  int foot;
} Drawn;

/* Once the count is open no number is written that another count would make wrong. */
static void
check_labels (const Drawn *drawn)
{
  for (guint i = 0; i < drawn->layout->labels->len; i++) {
    const BwStepLabel *label = &g_array_index (drawn->layout->labels, BwStepLabel, i);
    if (label->is_row && !label->in_bail && g_ascii_isdigit (*label->text))
      assert_in_range (atoi (label->text), 1, drawn->sample->rows / 2);
  }
}

static gboolean
lies_across (const Drawn *drawn, gboolean in_bail)
{
  return in_bail && drawn->sample->bail == SAMPLE_UPRIGHT;
}

/* What the label of its row or column says of a bead. */
static int
told_beside (const Drawn *drawn, const BwStepBead *bead, gboolean is_row)
{
  double x = bead->x + bead->width / 2, y = bead->y + bead->height / 2;
  for (guint i = 0; i < drawn->layout->labels->len; i++) {
    const BwStepLabel *label = &g_array_index (drawn->layout->labels, BwStepLabel, i);
    gboolean level = is_row == lies_across (drawn, bead->in_bail);
    if (label->in_bail == bead->in_bail && label->is_row == is_row
        && fabs (level ? label->y - y : label->x - x) < 0.05)
      return number_of (label->text, drawn->sample->rows, drawn->foot);
  }
  fail_msg ("nothing is written beside a bead");
  return 0;
}

/* The bead a thread goes through, by what is written beside it. */
static Pass
read_pass (const Drawn *drawn, BwVec2 in, BwVec2 out)
{
  BwVec2 at = bw_vec2_scale (bw_vec2_add (in, out), 0.5);
  for (guint i = drawn->layout->beads->len; i-- > 0;) {
    const BwStepBead *bead = &g_array_index (drawn->layout->beads, BwStepBead, i);
    if (at.x < bead->x || at.x > bead->x + bead->width || at.y < bead->y
        || at.y > bead->y + bead->height)
      continue;
    gboolean up = lies_across (drawn, bead->in_bail) ? out.x < in.x : out.y < in.y;
    return (Pass){ bead->in_bail, told_beside (drawn, bead, TRUE), told_beside (drawn, bead, FALSE),
                   up };
  }
  fail_msg ("the thread goes through no bead");
  return (Pass){ 0 };
}

static gboolean
same_pass (const Pass *a, const Pass *b)
{
  return a->in_bail == b->in_bail && a->row == b->row && a->column == b->column && a->up == b->up;
}

/* Where in what was woven the drawing's passes come, from `from` on. Numbers in the beads count up
 * where there are any. */
static guint
find_in_work (const Drawn *drawn, const GArray *woven, guint from)
{
  guint n = drawn->layout->passes->len;
  g_autofree Pass *passes = g_new (Pass, n);
  for (guint i = 0; i < n; i++) {
    const BwStepPass *pass = &g_array_index (drawn->layout->passes, BwStepPass, i);
    passes[i] = read_pass (drawn, pass->in, pass->out);
    assert_true (pass->link == 0 || pass->link == (int)i + 1);
  }
  for (guint at = from; at + n <= woven->len; at++) {
    guint i = 0;
    while (i < n && same_pass (&passes[i], &g_array_index (woven, Pass, at + i)))
      i++;
    if (i == n)
      return at;
  }
  fail_msg ("what is drawn was not woven: %s %d.%d", passes[0].in_bail ? "bail" : "band",
            passes[0].row, passes[0].column);
  return 0;
}

/* An end is woven in by steps a thread can take, from the bead drawn as the one it comes from. */
static void
check_end (const Drawn *drawn, int period, int *beads, int *turns)
{
  const GArray *thread = drawn->layout->thread;
  guint n = drawn->layout->passes->len;
  Pass before = { 0 };
  gboolean has_before = drawn->layout->begin == BW_BEGIN_BEAD;
  if (has_before) {
    BwVec2 middle = g_array_index (thread, BwVec2, 0), out = g_array_index (thread, BwVec2, 1);
    before = read_pass (drawn, bw_vec2_sub (bw_vec2_scale (middle, 2), out), out);
  }
  *beads = (int)n;
  *turns = 0;
  for (guint i = 0; i < n; i++) {
    const BwStepPass *pass = &g_array_index (drawn->layout->passes, BwStepPass, i);
    Pass to = read_pass (drawn, pass->in, pass->out);
    if (has_before) {
      *turns += to.up != before.up;
      if (to.in_bail == before.in_bail && !weaver_can_go (&before, &to, to.in_bail ? 0 : period))
        fail_msg ("an end cannot go from %d.%d to %d.%d", before.row, before.column, to.row,
                  to.column);
    }
    before = to;
    has_before = TRUE;
  }
}

static int
foot_told (const GArray *told, int rows)
{
  for (guint i = 0; i < told->len; i++) {
    const Told *one = &g_array_index (told, Told, i);
    if (one->kind == TOLD_FOOT)
      return GPOINTER_TO_INT (g_hash_table_lookup (one->foot, GINT_TO_POINTER (rows)));
  }
  return 0;
}

/* The ends told of, in the order in which they come: of each change two, at last two more. */
static GArray *
ends_told (const GArray *told)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (int));
  for (guint i = 0; i < told->len; i++) {
    const Told *one = &g_array_index (told, Told, i);
    int last[2] = { one->count, one->turns };
    if (one->kind == TOLD_CHANGE)
      g_array_append_vals (ends, one->ends, 4);
    if (one->kind == TOLD_END || one->kind == TOLD_TAIL)
      g_array_append_vals (ends, last, 2);
  }
  return ends;
}

static int
look_at_drawings (const Sample *sample, BwProject *project, const GArray *told, const GArray *woven)
{
  g_autoptr (GArray) steps = bw_steps_new (bw_project_path (project));
  g_autoptr (GArray) ends = ends_told (told);
  Drawn drawn = { .sample = sample, .foot = foot_told (told, sample->rows) };
  BwStepState state;
  guint counted = 0, at = 0, end = 0;
  bw_step_state_init (&state, project);
  for (guint i = 0; i < steps->len; i++) {
    const BwStep *step = &g_array_index (steps, BwStep, i);
    BwStepLayout layout;
    bw_step_state_take (&state, project, counted, step->first);
    counted = step->first;
    bw_step_layout_init (&layout, project, step, &state, 400, 600);
    drawn.layout = &layout;
    if (state.closed || step->kind == BW_STEP_ZIP)
      check_labels (&drawn);
    if (step->kind == BW_STEP_WEAVING_IN) {
      int beads, turns;
      check_end (&drawn, state.closed ? sample->rows : 0, &beads, &turns);
      assert_int_equal (beads, g_array_index (ends, int, end));
      assert_int_equal (turns, g_array_index (ends, int, end + 1));
      end += 2;
    } else {
      at = find_in_work (&drawn, woven, at) + layout.passes->len;
    }
    bw_step_layout_clear (&layout);
  }
  bw_step_state_clear (&state);
  assert_int_equal (end, ends->len);
  return (int)steps->len;
}

static void
the_drawings_show_the_way_that_is_told (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3002);
  int looked_at = 0;
  for (int i = 0; i < DESIGNS; i++) {
    g_autoptr (Sample) sample = random_sample (rand, i);
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
    g_autoptr (GArray) told = told_read (sample, words);
    Weaver weaver = {
      .sample = sample, .hands = hands_of (project), .rows = sample->rows, .cells = sample->cells
    };
    weaver_follow (&weaver, told);
    looked_at += look_at_drawings (sample, project, told, weaver.passes);
    weaver_clear (&weaver);
  }
  assert_true (looked_at > 10 * DESIGNS);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (whoever_follows_the_words_makes_the_piece_whatever_the_count),
    cmocka_unit_test (the_drawings_show_the_way_that_is_told),
  };
  return cmocka_run_group_tests_name ("weaver", tests, NULL, NULL);
}
