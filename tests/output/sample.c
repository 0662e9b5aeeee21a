/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stone is an invented one of some 84 mm girth; 114 rows of 11/0 beads go round it. */
#include "sample.h"

#include <stdlib.h>
#include <string.h>

#define FITTING_ROWS 114

/* Names that want care: commas, quotes, what a spreadsheet takes for a formula, the same name
 * twice, no name at all. */
static const char *const names[SAMPLE_COLOURS] = {
  "Night water", "Lamp glass", "=SUM(A1:A9)", "Red, dark", "Say \"sea\"", "Foam", "Foam", ""
};

static char *
random_row (GRand *rand, int n, int n_colours)
{
  char *row = g_strnfill ((gsize)n, 'a');
  for (int j = 0; j < n; j++) {
    gboolean go_on = j > 0 && g_rand_boolean (rand);
    row[j] = go_on ? row[j - 1] : (char)('a' + g_rand_int_range (rand, 0, n_colours));
  }
  return row;
}

/* Each row is new, or that of one or two rows before, or the row before turned round. */
static GPtrArray *
random_cells (GRand *rand, int columns, int rows, int n_colours)
{
  GPtrArray *cells = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0, left = 0, kind = 0; i < (guint)rows; i++, left--) {
    if (left == 0) {
      left = (guint)g_rand_int_range (rand, 1, 9);
      kind = (guint)g_rand_int_range (rand, 0, 4);
    }
    if (kind == 1 && i > 0)
      g_ptr_array_add (cells, g_strdup (cells->pdata[i - 1]));
    else if (kind == 2 && i > 1)
      g_ptr_array_add (cells, g_strdup (cells->pdata[i - 2]));
    else if (kind == 3 && i > 0)
      g_ptr_array_add (cells, g_strreverse (g_strdup (cells->pdata[i - 1])));
    else
      g_ptr_array_add (cells, random_row (rand, columns / 2, n_colours));
  }
  return cells;
}

static void
add_bail (Sample *sample, GRand *rand)
{
  sample->bail_columns = 2 * g_rand_int_range (rand, 1, sample->columns / 2);
  /* A base of three beads is six half pitches: an odd row count is of the right parity. */
  sample->bail_rows = 15 + 2 * g_rand_int_range (rand, 0, 8);
  g_ptr_array_unref (sample->bail_cells);
  sample->bail_cells
      = random_cells (rand, sample->bail_columns, sample->bail_rows, sample->n_colours);
}

Sample *
sample_new (GRand *rand, int columns, int rows, SampleBail bail)
{
  static const char *const letters[SAMPLE_COLOURS] = { "a", "b", "c", "d", "e", "f", "g", "h" };
  Sample *sample = g_new0 (Sample, 1);
  sample->columns = columns;
  sample->rows = rows > 0 ? rows : FITTING_ROWS;
  sample->n_colours = g_rand_int_range (rand, 1, SAMPLE_COLOURS + 1);
  for (int i = 0; i < SAMPLE_COLOURS; i++) {
    sample->letters[i] = letters[i];
    sample->names[i] = names[i];
  }
  sample->cells = random_cells (rand, columns, sample->rows, sample->n_colours);
  sample->bail_cells = g_ptr_array_new_with_free_func (g_free);
  sample->bail = bail;
  if (bail != SAMPLE_NO_BAIL)
    add_bail (sample, rand);
  return sample;
}

void
sample_free (Sample *sample)
{
  g_ptr_array_unref (sample->cells);
  g_ptr_array_unref (sample->bail_cells);
  g_free (sample);
}

static void
append_text (GString *json, const char *text)
{
  g_string_append_c (json, '"');
  for (const char *c = text; *c; c++)
    g_string_append_printf (json, *c == '"' || *c == '\\' ? "\\%c" : "%c", *c);
  g_string_append_c (json, '"');
}

static void
append_cells (GString *json, const GPtrArray *cells)
{
  g_string_append (json, "\"cells\": [");
  for (guint i = 0; i < cells->len; i++)
    g_string_append_printf (json, "%s\"%s\"", i > 0 ? ", " : "", (char *)cells->pdata[i]);
  g_string_append (json, "]");
}

static void
append_tray (GString *json, const Sample *sample)
{
  g_string_append (json, ",\n\"tray\": [");
  for (int i = 0; i < sample->n_colours; i++) {
    g_string_append_printf (json, "%s{ \"id\": \"%s\", \"name\": ", i > 0 ? ", " : "",
                            sample->letters[i]);
    append_text (json, sample->names[i]);
    g_string_append (json, ", \"srgb\": \"#1b2a41\", \"finish\": \"matte\" }");
  }
  g_string_append (json, "]");
}

static void
append_bail (GString *json, const Sample *sample)
{
  static const char *const styles[] = { "none", "flap", "upright", "ring", "over" };
  if (sample->bail == SAMPLE_NO_BAIL)
    return;
  g_string_append_printf (json,
                          ",\n\"bail\": { \"style\": \"%s\", \"columns\": %d, \"rows\": %d, "
                          "\"base_beads\": 3, \"cord_mm\": 2, ",
                          styles[sample->bail], sample->bail_columns, sample->bail_rows);
  if (sample->at_deg)
    g_string_append_printf (json, "\"at_deg\": %s, ", sample->at_deg);
  append_cells (json, sample->bail_cells);
  g_string_append (json, " }");
}

static void
append_stone (GString *json, const Sample *sample)
{
  g_string_append (json, "\"stone\": { \"mineral\": \"quartz\", \"faces\": 6, \"measured\": "
                         "\"across-flats\", \"values_mm\": [24.6, 23.9, 25.2], \"at_mm\": 12, ");
  if (sample->taper)
    g_string_append (json, "\"second_girth_mm\": 76.5, \"second_at_mm\": 34, ");
  g_string_append (json,
                   "\"length_mm\": 64, \"shoulder_mm\": 47, \"apex_offset_mm\": [0.8, -0.4] },\n"
                   "\"bead\": { \"name\": \"11/0 cylinder\", \"diameter_mm\": 1.6, "
                   "\"length_mm\": 1.3, \"hole_mm\": 0.8 },\n");
}

char *
sample_json (const Sample *sample)
{
  GString *json = g_string_new ("{ \"format\": \"bandwright-project\", \"version\": 1,\n"
                                "\"title\": \"Harbour Night\",\n");
  append_stone (json, sample);
  g_string_append_printf (json, "\"band\": { \"columns\": %d, \"rows\": %d, ", sample->columns,
                          sample->rows);
  append_cells (json, sample->cells);
  g_string_append (json, " }");
  append_tray (json, sample);
  append_bail (json, sample);
  if (sample->working_mm)
    g_string_append_printf (json, ",\n\"thread\": { \"working_mm\": %s }", sample->working_mm);
  if (sample->prices)
    g_string_append (json,
                     ",\n\"materials\": { \"pieces\": 3, \"prices\": { \"currency\": \"EUR\", "
                     "\"pack\": 3.2, \"thread_per_m\": 0.25, \"bed_cord_per_m\": 0.12, "
                     "\"stone\": 9.5, \"hour\": 16, \"rows_per_hour\": 22 } }");
  g_string_append (json, "\n}\n");
  return g_string_free (json, FALSE);
}

char
sample_bead (const GPtrArray *cells, int row, int column)
{
  g_assert ((row + column) % 2 == 1);
  return ((const char *)cells->pdata[row - 1])[(column - 1) / 2];
}

/* The colour a name in the words stands for, with the names' own rules undone. */
static char
letter_of (const Sample *sample, const char *name)
{
  for (int i = 0; i < sample->n_colours; i++) {
    const char *own = sample->names[i];
    g_autofree char *quoted = g_strdup_printf ("“%s”", own);
    g_autofree char *lettered = g_strdup_printf ("%s (%s)", own, sample->letters[i]);
    if (g_str_equal (name, own) || g_str_equal (name, quoted) || g_str_equal (name, lettered)
        || (!*own && g_str_equal (name, sample->letters[i])))
      return *sample->letters[i];
  }
  g_error ("no colour is called %s", name);
}

char *
sample_letters_of (const Sample *sample, const char *runs)
{
  GString *letters = g_string_new (NULL);
  while (*runs) {
    char *name;
    long count = strtol (runs, &name, 10);
    g_assert (count > 0 && *name == ' ');
    const char *from = ++name;
    const char *close = g_str_has_prefix (from, "“") ? strstr (from, "”") : from;
    const char *comma = strstr (close, ", ");
    g_autofree char *whole = comma ? g_strndup (from, (gsize)(comma - from)) : g_strdup (from);
    char letter = letter_of (sample, whole);
    for (long i = 0; i < count; i++)
      g_string_append_c (letters, letter);
    runs = comma ? comma + 2 : "";
  }
  return g_string_free (letters, FALSE);
}
