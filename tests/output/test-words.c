/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are read back by a parser that knows only what they tell a maker: the rows, which way
 * the needle runs, and what it picks up. Whoever follows them must end up with the very drawing. */
#include "core/bail/hang-ring.h"
#include "project/project.h"
#include "output/report/report.h"
#include "output/words/try-on-words.h"
#include "sample.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

/* A grid as a maker's work: one letter a place, '.' where no bead has been set. */
typedef struct {
  int columns, rows;
  char *bead; /* rows × columns */
  int next_row;
} Work;

static void
work_init (Work *work, int columns, int rows)
{
  *work = (Work){ columns, rows, g_strnfill ((gsize)columns * (gsize)rows, '.'), 1 };
}

static void
work_set (Work *work, int row, int column, char letter)
{
  assert_in_range (row, 1, work->rows);
  assert_in_range (column, 1, work->columns);
  char *bead = &work->bead[(row - 1) * work->columns + column - 1];
  assert_int_equal (*bead, '.');
  *bead = letter;
}

/* The first pick-up lies in columns 1 to W in turn; a column's bead belongs to the row that fills
 * it: even columns row 1, odd columns row 2. */
static void
string_up (Work *work, const char *letters, int rows)
{
  int used = 0;
  for (int column = 1; column <= work->columns; column++)
    if (rows == 2 || column % 2 == 0)
      work_set (work, column % 2 ? 2 : 1, column, letters[used++]);
  assert_int_equal (strlen (letters), used);
  work->next_row = rows + 1;
}

static void
weave (Work *work, int row, gboolean up, const char *letters)
{
  assert_int_equal (row, work->next_row);
  int used = 0;
  for (int i = 1; i <= work->columns; i++) {
    int column = up ? i : work->columns + 1 - i;
    if ((row + column) % 2)
      work_set (work, row, column, letters[used++]);
  }
  assert_int_equal (strlen (letters), used);
  work->next_row++;
}

/* Equal rows, up and down in turn. */
static void
weave_equal (Work *work, int row, int last, const char *arrows, const char *letters)
{
  gboolean up = g_str_has_prefix (arrows, "↑");
  for (; row <= last; row++, up = !up)
    weave (work, row, up, letters);
}

static char **
match (const char *pattern, const char *line)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) info = NULL;
  assert_non_null (regex);
  return g_regex_match (regex, line, 0, &info) ? g_match_info_fetch_all (info) : NULL;
}

/* The line of one of two rows that alternate. */
static char *
half_of_pair (const Sample *sample, const char *line, gboolean *up)
{
  g_auto (GStrv) half = match ("^    (↑|↓)  (.*)$", line);
  assert_non_null (half);
  *up = g_str_equal (half[1], "↑");
  return sample_letters_of (sample, half[2]);
}

static void
follow_pair (Work *work, const Sample *sample, char **stretch, char **lines)
{
  gboolean first_up, second_up;
  g_autofree char *first = half_of_pair (sample, lines[0], &first_up);
  g_autofree char *second = half_of_pair (sample, lines[1], &second_up);
  int from = atoi (stretch[1]), last = atoi (stretch[2]);
  assert_int_not_equal (first_up, second_up);
  for (int row = from; row <= last; row++)
    weave (work, row, (row - from) % 2 ? second_up : first_up, (row - from) % 2 ? second : first);
}

/* Follows one line, if it tells of rows; returns how many lines it took. */
static int
follow_line (Work *work, const Sample *sample, char **lines)
{
  g_auto (GStrv) pick = match ("^(?:\\* )?Rows 1 and 2 ↑  pick up (\\d+) beads: (.*)$", *lines);
  g_auto (GStrv) row = match ("^Row (\\d+) (↑|↓)  (.*)$", *lines);
  g_auto (GStrv) equal = match ("^Rows (\\d+)–(\\d+) (↑↓|↓↑)  each: (.*)$", *lines);
  g_auto (GStrv) pair = match ("^Rows (\\d+)–(\\d+), in turn:$", *lines);
  if (pick) {
    g_autofree char *letters = sample_letters_of (sample, pick[2]);
    assert_int_equal (atoi (pick[1]), work->columns);
    string_up (work, letters, 2);
  } else if (row && work->rows == 1) {
    g_autofree char *letters = sample_letters_of (sample, row[3]);
    string_up (work, letters, 1);
  } else if (row) {
    g_autofree char *letters = sample_letters_of (sample, row[3]);
    weave (work, atoi (row[1]), g_str_equal (row[2], "↑"), letters);
  } else if (equal) {
    g_autofree char *letters = sample_letters_of (sample, equal[4]);
    weave_equal (work, atoi (equal[1]), atoi (equal[2]), equal[3], letters);
  } else if (pair) {
    follow_pair (work, sample, pair, lines + 1);
    return 3;
  }
  return 1;
}

/* Follows the words from one heading to the next. */
static void
follow (Work *work, const Sample *sample, char **lines, const char *from, const char *to)
{
  while (*lines && !g_str_equal (*lines, from))
    lines++;
  assert_non_null (*lines);
  for (lines++; *lines && !g_str_equal (*lines, to);)
    lines += follow_line (work, sample, lines);
  assert_non_null (*lines);
  assert_int_equal (work->next_row, work->rows + 1);
}

static void
assert_work_is (const Work *work, const GPtrArray *cells)
{
  for (int row = 1; row <= work->rows; row++)
    for (int column = 1; column <= work->columns; column++) {
      char bead = work->bead[(row - 1) * work->columns + column - 1];
      if ((row + column) % 2 == 0)
        assert_int_equal (bead, '.');
      else
        assert_int_equal (bead, sample_bead (cells, row, column));
    }
}

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

/* The lines of the words, those that were broken made whole again. */
static char **
lines_of (BwProject *project)
{
  g_autofree char *words = bw_words (project, BW_UNIT_MM);
  g_autoptr (GRegex) broken = g_regex_new ("\\n  (?! )", 0, 0, NULL);
  g_autofree char *whole = g_regex_replace_literal (broken, words, -1, 0, " ", 0, NULL);
  return g_strsplit (whole, "\n", -1);
}

static void
assert_words_rebuild (const Sample *sample)
{
  g_autoptr (BwProject) project = load (sample);
  g_auto (GStrv) lines = lines_of (project);
  Work work;
  work_init (&work, sample->columns, sample->rows);
  follow (&work, sample, lines, "The band", "Further rows");
  assert_work_is (&work, sample->cells);
  g_free (work.bead);
}

static void
following_the_words_makes_the_very_band (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261);
  for (int i = 0; i < 60; i++) {
    int columns = 2 * g_rand_int_range (rand, 1, 11);
    g_autoptr (Sample) sample
        = sample_new (rand, columns, g_rand_int_range (rand, 1, 140), SAMPLE_NO_BAIL);
    assert_words_rebuild (sample);
  }
}

static void
changes_of_thread_part_no_row_and_lose_none (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20262);
  for (int i = 0; i < 10; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
    sample->working_mm = "600";
    assert_words_rebuild (sample);
  }
}

static void
assert_bail_rebuilds (const Sample *sample)
{
  g_autoptr (BwProject) project = load (sample);
  g_auto (GStrv) lines = lines_of (project);
  Work work;
  work_init (&work, sample->bail_columns, sample->bail_rows);
  follow (&work, sample, lines, "The bail", "The ends of the thread");
  assert_work_is (&work, sample->bail_cells);
  g_free (work.bead);
}

static void
following_the_words_makes_the_very_bail (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20263);
  for (int i = 0; i < 60; i++) {
    int columns = 2 * g_rand_int_range (rand, 2, 11);
    g_autoptr (Sample) sample = sample_new (rand, columns, 0, SAMPLE_FLAP + i % 4);
    assert_bail_rebuilds (sample);
  }
}

/* "14, 12 … 2" → its columns appended, every one of them. */
static void
expand_columns (const char *list, GArray *columns)
{
  g_auto (GStrv) numbers = g_strsplit_set (list, ", ", -1);
  gboolean gap = FALSE;
  for (char **number = numbers; *number; number++) {
    if (g_str_equal (*number, "…"))
      gap = TRUE;
    if (!g_ascii_isdigit (**number))
      continue;
    int column = atoi (*number);
    while (gap) {
      int a = g_array_index (columns, int, columns->len - 2);
      int b = g_array_index (columns, int, columns->len - 1);
      int next = 2 * b - a;
      if (next == column)
        break;
      g_array_append_val (columns, next);
    }
    gap = FALSE;
    g_array_append_val (columns, column);
  }
}

/* The number a row of a band of `rows` rows has that the words call so: "3", "L − 1 (119)". */
static int
row_called (const char *name, int rows)
{
  if (*name != 'L')
    return atoi (name);
  const char *off = strstr (name, "− ");
  int row = rows - (off ? atoi (off + strlen ("− ")) : 0);
  g_autofree char *planned = g_strdup_printf ("(%d)", row);
  assert_non_null (strstr (name, planned));
  return row;
}

/* The beads a sentence passes through, as "row.column" in order, band rows alone. */
static char *
beads_in_turn (const char *line, int rows)
{
  g_auto (GStrv) found
      = match ("band row ([^,]*), columns ([^a-z]*), and band row ([^,]*), columns ([^a-z]*), one "
               "of each in turn",
               line);
  assert_non_null (found);
  g_autoptr (GArray) first = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GArray) second = g_array_new (FALSE, FALSE, sizeof (int));
  expand_columns (found[2], first);
  expand_columns (found[4], second);
  int first_row = row_called (found[1], rows), second_row = row_called (found[3], rows);
  GString *beads = g_string_new (NULL);
  for (guint i = 0; i < first->len; i++) {
    g_string_append_printf (beads, "%d.%d ", first_row, g_array_index (first, int, i));
    if (i < second->len)
      g_string_append_printf (beads, "%d.%d ", second_row, g_array_index (second, int, i));
  }
  return g_string_free (beads, FALSE);
}

static const char *
line_that_begins (char **lines, const char *beginning)
{
  for (; *lines; lines++)
    if (g_str_has_prefix (*lines, beginning))
      return *lines;
  fail_msg ("no line begins with %s", beginning);
  return NULL;
}

/* The zip closes the ring: from column W down, a bead of row 1 and one of the last row in turn; the
 * return goes up through row 2 and row 1. */
static void
the_join_is_told_bead_by_bead (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20264);
  for (int columns = 4; columns <= 20; columns += 2) {
    g_autoptr (Sample) sample = sample_new (rand, columns, 0, SAMPLE_NO_BAIL);
    g_autoptr (BwProject) project = load (sample);
    g_auto (GStrv) lines = lines_of (project);
    g_autofree char *zip = beads_in_turn (line_that_begins (lines, "* Zip: "), sample->rows);
    g_autofree char *back = beads_in_turn (line_that_begins (lines, "* Return: "), sample->rows);
    g_autoptr (GString) down = g_string_new (NULL);
    g_autoptr (GString) up = g_string_new (NULL);
    for (int c = columns; c >= 1; c--)
      g_string_append_printf (down, "%d.%d ", c % 2 ? sample->rows : 1, c);
    for (int c = 1; c <= columns; c++)
      g_string_append_printf (up, "%d.%d ", c % 2 ? 2 : 1, c);
    assert_string_equal (zip, down->str);
    assert_string_equal (back, up->str);
  }
}

/* Nothing after the last row is told by a number that another count would make wrong: only rows of
 * the beginning are, which is where they were. */
static void
rows_after_the_last_are_told_from_the_end (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20268);
  for (int i = 0; i < 24; i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 3, 12), 0, SAMPLE_NO_BAIL + i % 4);
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *finish = bw_words_finish (project, BW_UNIT_MM);
    g_autoptr (GRegex) regex = g_regex_new ("band row (\\d+|[LF][^,.;]*)", 0, 0, NULL);
    g_autoptr (GMatchInfo) info = NULL;
    int from_end = 0;
    g_regex_match (regex, strstr (finish, "* Zip: "), 0, &info);
    for (; g_match_info_matches (info); g_match_info_next (info, NULL)) {
      g_autofree char *name = g_match_info_fetch (info, 1);
      if (g_ascii_isdigit (*name))
        assert_in_range (atoi (name), 1, sample->rows / 2);
      else if (*name == 'L')
        assert_in_range (row_called (name, sample->rows), sample->rows / 2, sample->rows);
      from_end += *name == 'L';
    }
    assert_true (from_end > 0);
    assert_non_null (strstr (finish, " as planned; L − 1"));
  }
}

/* The letter of a bead of the drawing run on with the least even repeat it has, worked out here. */
static int
repeat_of (const Sample *sample)
{
  for (int k = 2; k <= sample->rows / 2; k += 2) {
    gboolean holds = TRUE;
    for (int row = k; row < sample->rows && holds; row++)
      holds = g_str_equal (sample->cells->pdata[row], sample->cells->pdata[row - k]);
    if (holds)
      return k;
  }
  return 0;
}

/* A drawing whose rows repeat every k rows. */
static Sample *
repeating (GRand *rand, int columns, int rows, int k)
{
  Sample *sample = sample_new (rand, columns, rows, SAMPLE_NO_BAIL);
  for (int row = k; row < sample->rows; row++) {
    g_free (sample->cells->pdata[row]);
    sample->cells->pdata[row] = g_strdup (sample->cells->pdata[row - k]);
  }
  return sample;
}

static void
further_rows_run_the_pattern_on (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20269);
  for (int i = 0; i < 20; i++) {
    g_autoptr (Sample) sample = repeating (rand, 10, 0, 2 * g_rand_int_range (rand, 1, 15));
    g_autoptr (BwProject) project = load (sample);
    g_auto (GStrv) lines = lines_of (project);
    const BwForecast *forecast = bw_project_forecast (project);
    int k = repeat_of (sample), own = sample->rows;
    int last = MAX (own + 4, 2 * forecast->chance[forecast->n_chances - 1].beads_around);
    Work work;
    assert_true (k > 0);
    work_init (&work, sample->columns, last);
    work.next_row = own + 1;
    follow (&work, sample, lines, "Further rows", "The join");
    for (int row = own + 1; row <= last; row++)
      for (int column = 1 + row % 2; column <= sample->columns; column += 2)
        assert_int_equal (work.bead[(row - 1) * work.columns + column - 1],
                          sample_bead (sample->cells, (row - 1) % k + 1, column));
    g_free (work.bead);
  }
}

/* Beads of the first repeat that are not those the last rows of so many would go on with. */
static int
breaks_at (const Sample *sample, int k, int rows)
{
  int broken = 0;
  for (int row = 1; row <= k; row++)
    for (int column = 1 + row % 2; column <= sample->columns; column += 2)
      broken += sample_bead (sample->cells, row, column)
                != sample_bead (sample->cells, (rows + row - 1) % k + 1, column);
  return broken;
}

static void
every_likely_count_is_told_whether_the_pattern_breaks (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20270);
  int whole = 0, broken = 0;
  for (int i = 0; i < 20; i++) {
    g_autoptr (Sample) sample = repeating (rand, 8, 0, 2 * g_rand_int_range (rand, 1, 9));
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *finish = bw_words_finish (project, BW_UNIT_MM);
    int k = repeat_of (sample);
    g_autofree char *runs_on = g_strdup_printf ("repeats every %d rows and runs on across", k);
    const char *list = strstr (finish, runs_on);
    for (int rows = sample->rows - 4; rows <= sample->rows + 4; rows += 2) {
      int beads = breaks_at (sample, k, rows);
      g_autofree char *told
          = g_strdup_printf ("With %d rows the pattern breaks at the join: %d bead", rows, beads);
      g_autofree char *listed = g_strdup_printf (" %d", rows);
      if (beads > 0)
        assert_non_null (strstr (finish, told));
      else
        assert_true (list && strstr (list, listed) < strchr (list, '\n'));
      whole += beads == 0;
      broken += beads > 0;
    }
  }
  assert_true (whole > 10 && broken > 10);
}

/* Who stops before the row at which a fresh thread was due takes it before the zip. */
static void
a_change_of_thread_in_rows_left_out_is_told_at_the_join (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20271);
  int due = 0;
  for (int working = 900; working < 1300; working += 20) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
    g_autofree char *text = g_strdup_printf ("%d", working);
    sample->working_mm = text;
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *finish = bw_words_finish (project, BW_UNIT_MM);
    const GArray *lengths = bw_project_path (project)->lengths;
    for (guint k = 1; k < lengths->len; k++) {
      int row = g_array_index (lengths, BwThreadLength, k).from_row;
      g_autofree char *told = g_strdup_printf ("stopped before row %d, change the thread", row);
      if (row <= sample->rows && row > sample->rows - 4) {
        assert_non_null (strstr (finish, told));
        due++;
      }
      if (row > sample->rows)
        assert_null (strstr (finish, told));
    }
  }
  assert_true (due > 0);
}

/* The index of the first bead of the bail, where a fresh thread begins before it and comes out just
 * where the old one was left; 0 where it does not. */
static guint
fresh_at_bail (const BwPath *path)
{
  const BwVisit *visit = (const BwVisit *)(void *)path->visits->data;
  guint bail = 0;
  while (bail < path->visits->len && visit[bail].part != BW_PART_BAIL)
    bail++;
  if (bail == path->visits->len || bail < 2 || visit[bail - 1].part != BW_PART_WEAVING_IN)
    return 0;
  const BwVisit *out = &visit[bail - 1];
  guint left = bail - 1;
  while (left > 0 && visit[left].part == BW_PART_WEAVING_IN)
    left--;
  gboolean same = visit[left].row == out->row && visit[left].column == out->column
                  && visit[left].direction == out->direction && visit[left].in_bail == out->in_bail;
  return same ? bail : 0;
}

/* With the planned count alone it comes out where the old thread was left: with another the bail
 * stands elsewhere, so the row is told. */
static void
a_fresh_thread_at_a_bail_off_the_join_is_told_its_row (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20272);
  int fresh = 0;
  for (int i = 0; i < 600; i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 2, 8), 0, (SampleBail)(1 + i % 4));
    g_autofree char *working = g_strdup_printf ("%d", g_rand_int_range (rand, 700, 1600));
    g_autofree char *at = g_strdup_printf ("%d", g_rand_int_range (rand, 100, 260));
    sample->working_mm = working;
    sample->at_deg = at;
    g_autoptr (BwProject) project = load (sample);
    if (!fresh_at_bail (bw_project_path (project)))
      continue;
    g_autofree char *finish = bw_words_finish (project, BW_UNIT_MM);
    const char *bail = strstr (finish, "The bail\n");
    const char *change = bail ? strstr (bail, "Change the thread") : NULL;
    if (!bail || !strstr (bail, "F is the band row") || !change)
      continue;
    g_autofree char *line = g_strndup (change, strcspn (change, "\n"));
    if (strstr (line, "where the old one left off"))
      fail_msg ("%s", line);
    assert_true (strstr (line, "comes out ↑ of ") || strstr (line, "comes out ↓ of "));
    fresh++;
  }
  assert_true (fresh > 0);
}

static void
an_odd_strip_is_told_how_to_become_even (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20265);
  g_autoptr (Sample) sample = sample_new (rand, 8, 113, SAMPLE_RING);
  g_autoptr (BwProject) project = load (sample);
  g_auto (GStrv) lines = lines_of (project);
  g_autofree char *words = g_strjoinv ("\n", lines);
  assert_non_null (strstr (words, "Weave 112 or 114 rows"));
  assert_null (strstr (words, "* Zip: "));
  assert_non_null (strstr (words, "* The bail is worked on the closed band"));
  assert_null (strstr (words, "\nThe bail\n"));
}

/* Which ring, in the words, is what the core reckons; no other bail speaks of
 * one.
 */
static void
a_ring_bail_tells_its_ring_and_what_passes_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20272);
  for (int style = SAMPLE_FLAP; style <= SAMPLE_RING; style++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, style);
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
    BwHangRing ring;
    gboolean has_ring = bw_hang_ring_init (&ring, bw_project_get_design (project),
                                           &bw_project_hang (project)->loop);
    assert_int_equal (has_ring, style == SAMPLE_RING);
    assert_int_equal (strstr (words, "Put the ring in") != NULL, has_ring);
    if (!has_ring)
      continue;
    g_autofree char *passes = g_strdup_printf ("%.1f", ring.passes_mm);
    g_autofree char *told
        = g_strdup_printf ("at least %g mm inside, of %g mm wire; a cord of up to %g mm passes it",
                           ring.inner_mm, ring.wire_mm, g_ascii_strtod (passes, NULL));
    assert_non_null (strstr (words, told));
  }
}

static int
count_of (const char *text, const char *part)
{
  int n = 0;
  for (; (text = strstr (text, part)); text += strlen (part))
    n++;
  return n;
}

static void
the_try_on_stands_after_its_row_and_every_fresh_length_is_told (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20266);
  for (int i = 0; i < 20; i++) {
    g_autoptr (Sample) sample = sample_new (rand, 10, 0, SAMPLE_FLAP);
    sample->working_mm = "900";
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *words = bw_words (project, BW_UNIT_MM);
    const BwPath *path = bw_project_path (project);
    assert_true (path->lengths->len > 2);
    assert_int_equal (count_of (words, "* Change the thread: "), path->lengths->len - 1);
    int due = bw_project_forecast (project)->try_on_row;
    assert_in_range (due, 3, sample->rows - 1);
    char *there = strstr (words, "* Try on: ");
    assert_non_null (there);
    *there = '\0';
    g_autofree char *own = g_strdup_printf ("Row %d ", due);
    g_autofree char *last = g_strdup_printf ("–%d", due);
    g_autofree char *next = g_strdup_printf ("Row %d ", due + 1);
    assert_true (strstr (words, own) || strstr (words, last));
    assert_null (strstr (words, next));
  }
}

static void
the_words_of_one_row_are_those_of_the_whole (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20267);
  g_autoptr (Sample) sample = sample_new (rand, 14, 0, SAMPLE_NO_BAIL);
  g_autoptr (BwProject) project = load (sample);
  Work work;
  work_init (&work, sample->columns, sample->rows);
  g_autofree char *first = bw_words_row (project, 1);
  g_autofree char *second = bw_words_row (project, 2);
  g_autofree char *strung = sample_letters_of (sample, first);
  assert_string_equal (first, second);
  string_up (&work, strung, 2);
  for (int row = 3; row <= sample->rows; row++) {
    g_autofree char *runs = bw_words_row (project, row);
    g_autofree char *letters = sample_letters_of (sample, runs);
    weave (&work, row, row % 2 == 0, letters);
  }
  assert_work_is (&work, sample->cells);
  g_free (work.bead);
}

/* Row by row the same is told as in the whole, each at its row, and nothing elsewhere. */
static void
what_a_row_wants_is_told_before_it (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  for (int k = 0; k < 20; k++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL + k % 4);
    g_autoptr (BwProject) project = load (sample);
    const GArray *lengths = bw_project_path (project)->lengths;
    int rows = sample->rows, changes = 0, tried = 0;
    int on = bw_project_forecast (project)->try_on_row;
    for (int row = 1; row <= rows; row++) {
      g_autofree char *told = bw_words_before_row (project, row, BW_UNIT_MM);
      gboolean turns = strstr (told, "Row 3 turns back") != NULL;
      gboolean changed = strstr (told, "Change the thread") != NULL;
      assert_int_equal (turns, row == 3);
      gboolean due = FALSE;
      for (guint i = 1; i < lengths->len; i++)
        due |= g_array_index (lengths, BwThreadLength, i).from_row == row;
      assert_int_equal (changed, due);
      gboolean try_on = strstr (told, "Try on: ") != NULL;
      gboolean again = strstr (told, bw_try_on_words_again ()) != NULL;
      assert_int_equal (again, row > on + 1 && (row - on) % 2 == 1);
      assert_int_equal (*told != '\0', turns || changed || try_on || again);
      tried += try_on;
      changes += changed;
    }
    assert_int_equal (tried, on < rows ? 1 : 0);
    assert_true (changes < (int)lengths->len);
  }
}

static void
what_comes_after_the_last_row_is_the_end_of_the_words (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (24);
  for (int k = 0; k < 10; k++) {
    g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL + k % 4);
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *finish = bw_words_finish (project, BW_UNIT_MM);
    g_autofree char *whole = bw_words_flowing (project, BW_UNIT_MM);
    assert_null (strstr (whole, "=="));
    assert_non_null (strstr (finish, "The join"));
    assert_true (g_str_has_suffix (whole, finish));
  }
}

static void
a_plain_band_is_told_in_a_few_lines (void **state)
{
  g_autoptr (BwProject) project = bw_project_new ();
  g_autofree char *words = bw_words (project, BW_UNIT_MM);
  assert_in_range (count_of (words, "\nRow"), 1, 4);
}

/* What the words say is what the bench says and what the sheet prints: one procedure, one reading.
 */
/* Whoever measures in inches meets no other length, and each is the same length. */
static void
words_in_inches_tell_the_same_lengths_and_no_millimetre (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20268);
  g_autoptr (GRegex) other = g_regex_new ("[0-9] mm\\b|millimet|[0-9] m\\b", 0, 0, NULL);
  for (int i = 0; i < 20; i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 2, 12), 0, (SampleBail)(i % 5));
    sample->taper = i % 3 == 0;
    g_autoptr (BwProject) project = load (sample);
    g_autofree char *words = bw_words_flowing (project, BW_UNIT_INCH);
    g_autofree char *list = bw_materials_text (project, 0, BW_UNIT_INCH);
    g_autofree char *order = bw_order_text (project, BW_UNIT_INCH);
    assert_false (g_regex_match (other, words, 0, NULL));
    assert_false (g_regex_match (other, list, 0, NULL));
    assert_false (g_regex_match (other, order, 0, NULL));
    BwBandSpan span = bw_design_span (bw_project_get_design (project));
    g_autofree char *reach
        = g_strdup_printf ("from %.2f in to %.2f in above the base; the join",
                           span.bottom_mm / 25.4, (span.bottom_mm + span.width_mm) / 25.4);
    assert_non_null (strstr (words, reach));
    double feet
        = g_array_index (bw_project_path (project)->lengths, BwThreadLength, 0).length_mm / 304.8;
    g_autofree char *cut
        = g_strdup_printf ("The thread: cut %.1f ft", ceil (10 * feet - 1e-9) / 10);
    assert_non_null (strstr (words, cut));
  }
}

static void
the_try_on_is_told_in_the_one_way_there_is (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (88);
  g_autoptr (Sample) sample = sample_new (rand, 12, 0, SAMPLE_NO_BAIL);
  g_autofree char *json = sample_json (sample);
  g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
  assert_non_null (project);
  g_autofree char *words = bw_words_flowing (project, BW_UNIT_MM);
  assert_non_null (strstr (words, bw_try_on_words_procedure ()));
  assert_non_null (strstr (words, bw_try_on_words_reading ()));
  assert_non_null (strstr (bw_try_on_words_procedure (), "At every second row"));
  assert_non_null (strstr (bw_try_on_words_procedure (), "pull its ends together as at the zip"));
  assert_non_null (strstr (bw_try_on_words_reading (), "the ends touching nothing"));
  assert_non_null (strstr (bw_try_on_words_reading (), "told as pulled, and nothing is added"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (following_the_words_makes_the_very_band),
    cmocka_unit_test (changes_of_thread_part_no_row_and_lose_none),
    cmocka_unit_test (following_the_words_makes_the_very_bail),
    cmocka_unit_test (the_join_is_told_bead_by_bead),
    cmocka_unit_test (rows_after_the_last_are_told_from_the_end),
    cmocka_unit_test (further_rows_run_the_pattern_on),
    cmocka_unit_test (every_likely_count_is_told_whether_the_pattern_breaks),
    cmocka_unit_test (a_change_of_thread_in_rows_left_out_is_told_at_the_join),
    cmocka_unit_test (a_ring_bail_tells_its_ring_and_what_passes_it),
    cmocka_unit_test (a_fresh_thread_at_a_bail_off_the_join_is_told_its_row),
    cmocka_unit_test (an_odd_strip_is_told_how_to_become_even),
    cmocka_unit_test (words_in_inches_tell_the_same_lengths_and_no_millimetre),
    cmocka_unit_test (the_try_on_is_told_in_the_one_way_there_is),
    cmocka_unit_test (the_try_on_stands_after_its_row_and_every_fresh_length_is_told),
    cmocka_unit_test (the_words_of_one_row_are_those_of_the_whole),
    cmocka_unit_test (what_a_row_wants_is_told_before_it),
    cmocka_unit_test (what_comes_after_the_last_row_is_the_end_of_the_words),
    cmocka_unit_test (a_plain_band_is_told_in_a_few_lines),
  };
  return cmocka_run_group_tests_name ("words", tests, NULL, NULL);
}
