/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "told.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#define MINUS "−"
#define MORE "…"

typedef struct {
  const Sample *sample;
  GArray *told;
  gboolean in_bail;
} Reader;

static void
clear_told (gpointer data)
{
  Told *told = data;
  g_free (told->letters);
  g_clear_pointer (&told->beads, g_array_unref);
  g_clear_pointer (&told->foot, g_hash_table_unref);
}

static Told *
add (Reader *reader, ToldKind kind)
{
  Told told = { .kind = kind,
                .in_bail = reader->in_bail,
                .beads = g_array_new (FALSE, FALSE, sizeof (ToldBead)) };
  g_array_append_val (reader->told, told);
  return &g_array_index (reader->told, Told, reader->told->len - 1);
}

/* Goes past a text that must stand here. */
static void
expect (const char **at, const char *text)
{
  if (!g_str_has_prefix (*at, text))
    fail_msg ("“%s” should begin with “%s”", *at, text);
  *at += strlen (text);
}

static gboolean
take (const char **at, const char *text)
{
  if (!g_str_has_prefix (*at, text))
    return FALSE;
  *at += strlen (text);
  return TRUE;
}

/* Behind the first place where a text stands. */
static const char *
after (const char *line, const char *text)
{
  const char *at = strstr (line, text);
  if (!at)
    fail_msg ("“%s” does not say “%s”", line, text);
  return at + strlen (text);
}

static int
number (const char **at)
{
  char *end;
  long value = strtol (*at, &end, 10);
  assert_ptr_not_equal (end, *at);
  *at = end;
  return (int)value;
}

/* "1.14 m" in millimetres. */
static double
metres (const char *at)
{
  char *end;
  double value = g_ascii_strtod (at, &end);
  assert_ptr_not_equal (end, at);
  assert_true (g_str_has_prefix (end, " m"));
  return 1000 * value;
}

/* "band row L − 1 (119)", "bail row 3". */
static ToldBead
read_row (const char **at)
{
  ToldBead bead = { '1', 0, 0, 0 };
  if (take (at, "bail row ")) {
    bead.from = 'B';
    bead.row = number (at);
    return bead;
  }
  expect (at, "band row ");
  if (g_ascii_isdigit (**at)) {
    bead.row = number (at);
    return bead;
  }
  bead.from = *(*at)++;
  assert_true (bead.from == 'L' || bead.from == 'F');
  if (take (at, " " MINUS " "))
    bead.row = -number (at);
  else if (take (at, " + "))
    bead.row = number (at);
  expect (at, " (");
  bead.plan = number (at);
  expect (at, ")");
  return bead;
}

/* "14, 12 … 2": the columns there, those left out made good. Ends before what is no number. */
static void
read_columns (const char **at, GArray *columns)
{
  for (;;) {
    int column = number (at);
    g_array_append_val (columns, column);
    if (take (at, " " MORE " ")) {
      int last = number (at), by = column - g_array_index (columns, int, columns->len - 2);
      while (column != last) {
        column += by;
        g_array_append_val (columns, column);
      }
    }
    if (!g_str_has_prefix (*at, ", ") || !g_ascii_isdigit ((*at)[2]))
      return;
    *at += 2;
  }
}

static void
add_bead (GArray *beads, ToldBead bead, int column)
{
  bead.column = column;
  g_array_append_val (beads, bead);
}

/* One group: a bead, some beads of a row, or two rows of which one of each is passed in turn. */
static void
read_group (const char **at, GArray *beads)
{
  g_autoptr (GArray) first = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GArray) second = g_array_new (FALSE, FALSE, sizeof (int));
  ToldBead row = read_row (at), other = row;
  if (!take (at, ", columns "))
    expect (at, ", column ");
  read_columns (at, first);
  if (g_str_has_prefix (*at, ", and b") && take (at, ", and ")) {
    other = read_row (at);
    expect (at, ", columns ");
    read_columns (at, second);
    expect (at, ", one of each in turn");
    assert_in_range (first->len - second->len, 0, 1);
  }
  for (guint i = 0; i < first->len; i++) {
    add_bead (beads, row, g_array_index (first, int, i));
    if (i < second->len)
      add_bead (beads, other, g_array_index (second, int, i));
  }
}

/* Groups, numbered when there are several; to the end of the sentence. */
static const char *
read_beads (const char *at, GArray *beads)
{
  if (!g_ascii_isdigit (*at)) {
    read_group (&at, beads);
    return at;
  }
  for (int link = 1;; link++) {
    assert_int_equal (number (&at), link);
    expect (&at, ": ");
    read_group (&at, beads);
    if (!take (&at, "; "))
      return at;
  }
}

static gboolean
read_arrow (const char **at)
{
  if (take (at, "↑"))
    return TRUE;
  expect (at, "↓");
  return FALSE;
}

/* "through 16 beads, turning 3 times". */
static const char *
read_way (const char *line, int *beads, int *turns)
{
  const char *at = after (line, "through ");
  *beads = number (&at);
  at = after (at, ", ");
  if (take (&at, "without a turn"))
    *turns = 0;
  else if (take (&at, "turning once"))
    *turns = 1;
  else {
    expect (&at, "turning ");
    *turns = number (&at);
    expect (&at, " times");
  }
  return at;
}

static void
add_row (Reader *reader, int row, gboolean up, const char *letters)
{
  Told *told = add (reader, TOLD_ROW);
  told->row = row;
  told->up = up;
  told->letters = g_strdup (letters);
}

static void
read_string (Reader *reader, const char *at)
{
  expect (&at, "Row");
  gboolean two = take (&at, "s 1 and 2 ↑");
  Told *told = add (reader, TOLD_STRING);
  at = after (at, "  ");
  if (take (&at, "pick up ")) {
    number (&at);
    expect (&at, " beads: ");
  }
  told->row = two ? 2 : 1;
  told->letters = sample_letters_of (reader->sample, at);
}

/* "Row 9 ↓  …", "Rows 6–8 ↑↓  each: …", "Rows 48–51, in turn:" with two lines more. Returns how
 * many lines it took. */
static int
read_rows (Reader *reader, char **lines)
{
  const char *at = *lines;
  expect (&at, "Row");
  gboolean several = take (&at, "s");
  expect (&at, " ");
  int first = number (&at), last = first;
  if (several) {
    expect (&at, "–");
    last = number (&at);
  }
  if (take (&at, ", in turn:")) {
    for (int row = first; row <= last; row++) {
      const char *half = after (lines[1 + (row - first) % 2], "    ");
      gboolean up = read_arrow (&half);
      expect (&half, "  ");
      g_autofree char *letters = sample_letters_of (reader->sample, half);
      add_row (reader, row, up, letters);
    }
    return 3;
  }
  expect (&at, " ");
  gboolean up = read_arrow (&at);
  if (several)
    assert_int_equal (read_arrow (&at), !up);
  expect (&at, several ? "  each: " : "  ");
  g_autofree char *letters = sample_letters_of (reader->sample, at);
  for (int row = first; row <= last; row++, up = !up)
    add_row (reader, row, up, letters);
  return 1;
}

static void
read_change (Reader *reader, const char *at)
{
  Told *told = add (reader, TOLD_CHANGE);
  told->cut_mm = metres (after (at, "Cut "));
  at = read_way (at, &told->ends[0], &told->ends[1]);
  at = read_way (after (at, "weave its end in "), &told->ends[2], &told->ends[3]);
  expect (&at, ", so that it comes out ");
  if (take (&at, "where the old one left off"))
    return;
  told->elsewhere = TRUE;
  told->up = read_arrow (&at);
  expect (&at, " of ");
  read_group (&at, told->beads);
}

static void
read_foot (Reader *reader, const char *at)
{
  Told *told = add (reader, TOLD_FOOT);
  told->foot = g_hash_table_new (NULL, NULL);
  at = after (at, "stands on: row ");
  int row = number (&at);
  expect (&at, " with ");
  g_hash_table_insert (told->foot, GINT_TO_POINTER (number (&at)), GINT_TO_POINTER (row));
  at = after (at, "in brackets, row ");
  do {
    row = number (&at);
    expect (&at, " (");
    g_hash_table_insert (told->foot, GINT_TO_POINTER (number (&at)), GINT_TO_POINTER (row));
    expect (&at, ")");
  } while (take (&at, ", "));
}

static void
read_passing (Reader *reader, ToldKind kind, const char *at)
{
  Told *told = add (reader, kind);
  if (kind == TOLD_ZIP || kind == TOLD_RETURN || kind == TOLD_SEW) {
    told->up = read_arrow (&at);
    expect (&at, " through ");
  }
  at = read_beads (at, told->beads);
  assert_true (g_str_has_prefix (at, "."));
}

#define ELSE_WALK "With another count go from bead to bead until the thread comes out "

static void
read_other_way (Reader *reader, const char *at)
{
  Told *told = add (reader, TOLD_ELSE_WALK);
  told->up = read_arrow (&at);
  expect (&at, " of ");
  read_group (&at, told->beads);
}

static void
read_item (Reader *reader, const char *at)
{
  if (take (&at, "The thread: cut "))
    add (reader, TOLD_CUT)->cut_mm = metres (at);
  else if (take (&at, "Change the thread: "))
    read_change (reader, at);
  else if (take (&at, "These rows and what follows them take ")) {
    Told *told = add (reader, TOLD_FURTHER);
    told->mm = metres (at);
    told->cut_mm = metres (after (at, "and cut "));
  } else if (take (&at, "If you have stopped before row ")) {
    Told *told = add (reader, TOLD_MISSED);
    told->row = number (&at);
    told->cut_mm = metres (after (at, "and cut "));
  } else if (take (&at, "Take the stopper bead off now."))
    add (reader, TOLD_STOPPER);
  else if (take (&at, "Zip: "))
    read_passing (reader, TOLD_ZIP, after (at, "Without picking up, pass "));
  else if (take (&at, "Return: turn and pass back "))
    read_passing (reader, TOLD_RETURN, at);
  else if (take (&at, "Anchor: to hold the join, pass on through "))
    read_passing (reader, TOLD_ANCHOR, at);
  else if (take (&at, "F is the band row"))
    read_foot (reader, at);
  else if (take (&at, "Bring the thread to the bail: pass through ")
           || take (&at, "Bring the thread to the bail: as planned, pass through ")) {
    read_passing (reader, TOLD_WALK, at);
    if (strstr (at, ELSE_WALK))
      read_other_way (reader, after (at, ELSE_WALK));
  } else if (take (&at, ELSE_WALK))
    read_other_way (reader, at);
  else if (take (&at, "Row 1 hangs on the band:"))
    read_passing (reader, TOLD_HANG, after (at, "The beads of the band: "));
  else if (take (&at, "Sew down: pass "))
    read_passing (reader, TOLD_SEW, at);
  else if (g_str_has_prefix (at, "Row 1 ↑  pick up ")
           || g_str_has_prefix (at, "Rows 1 and 2 ↑  pick up "))
    read_string (reader, at);
  else if (take (&at, "Weave in the end you have in the needle ")) {
    Told *told = add (reader, TOLD_END);
    read_way (at, &told->count, &told->turns);
  } else if (take (&at, "Weave in the tail of the beginning ")) {
    Told *told = add (reader, TOLD_TAIL);
    read_way (at, &told->count, &told->turns);
  }
}

GArray *
told_read (const Sample *sample, const char *words)
{
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  Reader reader = { sample, g_array_new (FALSE, FALSE, sizeof (Told)), FALSE };
  g_array_set_clear_func (reader.told, clear_told);
  for (char **line = lines; *line;) {
    const char *at = *line;
    int taken = 1;
    if (g_str_equal (at, "The bail") || g_str_equal (at, "The ends of the thread"))
      reader.in_bail = g_str_equal (at, "The bail");
    else if (take (&at, "* "))
      read_item (&reader, at);
    else if (g_str_has_prefix (at, "Rows 1 and 2 ↑"))
      read_string (&reader, at);
    else if (g_str_has_prefix (at, "Row"))
      taken = read_rows (&reader, line);
    line += taken;
  }
  return reader.told;
}
