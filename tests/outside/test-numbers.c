/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every number that is printed can be had from the command line as JSON too: the text of all pages
 * is read back by poppler, and each number in it is looked for in the answers that its section may
 * draw on, rounded and in the unit in which it is printed. */
#include "../fewer.h"
#include "output/report/report.h"
#include "output/sheet/sheet-answer.h"
#include "printed.h"
#include "sample.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#define MOST_SOURCES 12

/* The answers, and the members of them, that a section of the sheet may draw on. */
static const struct {
  const char *heading; /* of which the first word that differs may be a number */
  const char *source[MOST_SOURCES];
} sections[] = {
  { "",
    { "sheet.band", "sheet.finished_mm", "sheet.finished_in", "sheet.stone", "sheet.alike",
      "sheet.rows_done", "hang", "fit", "stone", "thread" } },
  { "What you need for", { "need" } },
  { "The thread, and where to change it", { "thread.lengths", "sheet.tail_mm" } },
  { "The stone", { "sheet.stone", "sheet.band", "stone.mass_g" } },
  { "Winding the bed", { "sheet.bed", "sheet.band" } },
  { "The fit and the try-on", { "fit" } },
  { "First a swatch", { "sheet.swatch" } },
  { "Row ruler", { "sheet.ruler" } },
  { "Your stone is not this stone", { "fit.other_stones", "fit.join.repeat_rows" } },
  { "Chart of the band", { "sheet.rows", "sheet.path", "sheet.stone.faces" } },
  { "Chart of the bail", { "sheet.rows", "sheet.path", "sheet.bail" } },
  { "Row by row",
    { "sheet.band", "sheet.stone", "hang", "fit", "thread.working_mm", "thread.n_full_holes",
      "thread.full_holes" } },
  { "Before the first row", { "sheet.bed", "sheet.tail_mm", "thread.lengths" } },
  { "The band",
    { "sheet.pick_up", "sheet.rows", "sheet.path", "fit", "thread.lengths", "sheet.tail_mm",
      "sheet.further" } },
  { "Further rows", { "sheet.rows", "sheet.further", "thread.lengths" } },
  { "The join", { "sheet.path", "sheet.further", "thread.lengths", "sheet.tail_mm" } },
  { "The bail",
    { "sheet.path", "sheet.bail", "sheet.rows", "hang", "thread.lengths", "sheet.tail_mm", "bag",
      "sheet.further" } },
  { "The ends of the thread", { "sheet.path", "sheet.rows" } },
  { "Tools and thread", { NULL } },
  { "Order list", { "order" } },
  { "Take Care", { NULL } },
  { "In the bag", { "bag" } },
  { "To cut and to know", { "sheet.band", "bag", "thread.lengths", "fit.try_on_row" } },
};

/* Numbers that follow from no design, with the words they stand in. */
static const struct {
  const char *heading, *words, *why;
} constants[] = {
  { "The stone", "Faces count from 1", "how faces are counted" },
  { "The stone", "mark face 1", "how faces are counted" },
  { "The stone", "face 1 to the right", "how the sketch is turned" },
  { "Winding the bed", "1 Cut", "the number of a step" },
  { "Winding the bed", "2 ", "the number of a step" },
  { "Winding the bed", "3 Lead", "the number of a step" },
  { "Winding the bed", "4 Check", "the number of a step" },
  { "Winding the bed", "more than 1 mm", "what a strip of paper tells: common practice" },
  { "Winding the bed", "more than 0.04 in", "the same in inches" },
  { "Row ruler", "each 0.1 in", "what a ruler in inches shows" },
  { "Row ruler", "0.5 mm", "how much paper may be off: common practice" },
  { "Row ruler", "0.02 in", "the same in inches" },
  { "Row ruler", "each 1 mm", "what a ruler shows" },
  { "Row by row", "Column 1 is the lower edge", "how columns are counted" },
  { "Take Care", "Mohs hardness 7", "of quartz, from published tables (test `minerals`)" },
};

typedef struct {
  BwProject *project;
  GHashTable *answers; /* of JsonNode by name; owned */
  GPtrArray *names;    /* what the maker calls things; owned */
  int pages, rows;
  GArray *feet; /* of double: rows that F may stand for; owned */
} Answers;

static void
take_answer (Answers *answers, const char *name, char *json)
{
  g_autofree char *taken = json;
  JsonNode *node = json_from_string (taken, NULL);
  assert_non_null (node);
  g_hash_table_insert (answers->answers, g_strdup (name), node);
}

/* Whole, and word by word, for a line may end within it. */
static void
take_name (Answers *answers, const char *name)
{
  g_auto (GStrv) words = g_strsplit_set (name ? name : "", " (", -1);
  g_ptr_array_add (answers->names, g_strdup (name));
  for (char **word = words; *word; word++)
    if ((*word)[strcspn (*word, "0123456789")])
      g_ptr_array_add (answers->names, g_strdup (*word));
}

static void
name_things (Answers *answers)
{
  const BwTray *tray = bw_project_get_tray (answers->project);
  take_name (answers, bw_project_get_title (answers->project));
  take_name (answers, bw_project_get_mineral (answers->project));
  take_name (answers, bw_project_get_design (answers->project)->bead.name);
  for (int i = 0; i < tray->n_colours; i++) {
    take_name (answers, tray->colour[i].name);
    g_ptr_array_add (answers->names, g_strdup_printf ("#%06x", tray->colour[i].srgb));
  }
}

static JsonNode *
member (const Answers *answers, const char *source)
{
  g_auto (GStrv) parts = g_strsplit (source, ".", -1);
  JsonNode *node = g_hash_table_lookup (answers->answers, parts[0]);
  for (char **part = parts + 1; *part; part++) {
    node = json_object_get_member (json_node_get_object (node), *part);
    assert_non_null (node);
  }
  return node;
}

static void
add_feet (Answers *answers)
{
  JsonNode *bail = member (answers, "sheet.bail");
  if (JSON_NODE_HOLDS_NULL (bail))
    return;
  JsonArray *feet = json_object_get_array_member (json_node_get_object (bail), "foot");
  for (guint i = 0; i < json_array_get_length (feet); i++) {
    double row = json_object_get_double_member (json_array_get_object_element (feet, i), "row");
    g_array_append_val (answers->feet, row);
  }
}

static Answers *
answers_new (BwProject *project, int makers)
{
  Answers *answers = g_new0 (Answers, 1);
  answers->project = project;
  answers->rows = bw_project_get_design (project)->band.rows;
  answers->answers
      = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)json_node_unref);
  answers->names = g_ptr_array_new_with_free_func (g_free);
  answers->feet = g_array_new (FALSE, FALSE, sizeof (double));
  take_answer (answers, "fit", bw_report_fit (project, 0, TRUE, NULL));
  take_answer (answers, "stone", bw_report_stone (project, TRUE));
  take_answer (answers, "hang", bw_report_hang (project, TRUE));
  take_answer (answers, "thread", bw_report_thread (project, TRUE, TRUE));
  take_answer (answers, "need", bw_report_materials (project, MAX (makers, 1), BW_UNIT_MM, TRUE));
  take_answer (answers, "order", bw_report_materials (project, 0, BW_UNIT_MM, TRUE));
  take_answer (answers, "bag", bw_report_materials (project, 1, BW_UNIT_MM, TRUE));
  take_answer (answers, "sheet", bw_report_sheet (project));
  name_things (answers);
  add_feet (answers);
  return answers;
}

static void
answers_free (Answers *answers)
{
  g_hash_table_unref (answers->answers);
  g_ptr_array_unref (answers->names);
  g_array_unref (answers->feet);
  g_free (answers);
}

/* Numbers, and texts that are a number, such as the size of a needle; sentences are no data. */
static void
gather (JsonNode *node, GArray *values)
{
  if (JSON_NODE_HOLDS_ARRAY (node)) {
    JsonArray *array = json_node_get_array (node);
    for (guint i = 0; i < json_array_get_length (array); i++)
      gather (json_array_get_element (array, i), values);
  } else if (JSON_NODE_HOLDS_OBJECT (node)) {
    JsonObjectIter iter;
    JsonNode *inside;
    json_object_iter_init (&iter, json_node_get_object (node));
    while (json_object_iter_next (&iter, NULL, &inside))
      gather (inside, values);
  } else if (json_node_get_value_type (node) == G_TYPE_STRING) {
    char *end;
    double value = g_ascii_strtod (json_node_get_string (node), &end);
    if (*json_node_get_string (node) && !*end)
      g_array_append_val (values, value);
  } else if (JSON_NODE_HOLDS_VALUE (node)) {
    double value = json_node_get_double (node);
    g_array_append_val (values, value);
  }
}

static GArray *
pool_of (const Answers *answers, int section)
{
  GArray *values = g_array_new (FALSE, FALSE, sizeof (double));
  for (int i = 0; i < MOST_SOURCES && sections[section].source[i]; i++)
    gather (member (answers, sections[section].source[i]), values);
  return values;
}

typedef struct {
  Answers *answers;
  BwUnit unit; /* of the pages */
  int section, looked_up, lost;
  GArray *pool; /* of the section */
} Reader;

typedef enum { PLAIN, METRES, FEET, PERCENT, INCHES, HOURS } Unit;

/* A number as it is printed. */
typedef struct {
  double value, last_digit; /* what its last digit counts */
  Unit unit;
  const char *begin, *end; /* in the text */
} Number;

static Unit
unit_after (const char *text)
{
  static const struct {
    const char *sign;
    Unit unit;
  } signs[]
      = { { "m", METRES }, { "ft", FEET }, { "%", PERCENT }, { "in", INCHES }, { "h", HOURS } };
  while (*text == ' ' || g_str_has_prefix (text, "\302\240"))
    text += *text == ' ' ? 1 : 2;
  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (text, signs[i].sign) && !g_ascii_isalpha (text[strlen (signs[i].sign)]))
      return signs[i].unit;
  return PLAIN;
}

static gboolean
next_number (const char *text, Number *number)
{
  const char *at = text + strcspn (text, "0123456789");
  char *end;
  if (!*at)
    return FALSE;
  number->begin = at;
  number->value = g_ascii_strtod (at, &end);
  gsize whole = strspn (at, "0123456789"), decimals = 0;
  if (at[whole] == '.')
    decimals = strspn (at + whole + 1, "0123456789");
  number->end = at + whole + (decimals > 0 ? decimals + 1 : 0);
  number->last_digit = pow (10, -(double)decimals);
  number->value = g_ascii_strtod (at, NULL);
  number->unit = unit_after (number->end);
  return TRUE;
}

static gboolean
is_rounded (double printed, double value, double last_digit)
{
  return fabs (printed - fabs (value)) <= last_digit / 2 * (1 + 1e-6) + 1e-9;
}

/* Lengths to cut go up to the next centimetre, or the next tenth of a foot. In tables and sketches
 * the unit stands elsewhere. */
static gboolean
tells (const Number *number, double value, BwUnit unit)
{
  double inches = value / 25.4;
  switch (number->unit) {
  case METRES:
    return number->value >= value / 1000 - 1e-9 && number->value < value / 1000 + 0.01;
  case FEET:
    return number->value >= inches / 12 - 1e-9 && number->value < inches / 12 + 0.1;
  case PERCENT:
    return is_rounded (number->value, 100 * value, number->last_digit);
  case INCHES:
    return is_rounded (number->value, inches, number->last_digit)
           || is_rounded (number->value, value, number->last_digit);
  default:
    return is_rounded (number->value, value, number->last_digit)
           || (unit == BW_UNIT_INCH && number->last_digit < 1
               && is_rounded (number->value, inches, number->last_digit));
  }
}

static gboolean
is_in (const Number *number, const GArray *pool, BwUnit unit)
{
  for (guint i = 0; i < pool->len; i++)
    if (tells (number, g_array_index (pool, double, i), unit))
      return TRUE;
  return FALSE;
}

/* "L − 3", "F + 1": rows told from the last one, or from the bail's. */
static gboolean
is_row_told_from_another (const Answers *answers, const Number *number, const char *line,
                          const GArray *pool)
{
  const char *at = number->begin;
  while (at > line && at[-1] == ' ')
    at--;
  gboolean minus = at - line >= 3 && memcmp (at - 3, "\342\210\222", 3) == 0;
  if (!minus && (at == line || at[-1] != '+'))
    return FALSE;
  Number row = *number;
  row.value = answers->rows - number->value;
  if (minus && is_in (&row, pool, BW_UNIT_MM))
    return TRUE;
  for (guint i = 0; i < answers->feet->len; i++) {
    row.value = g_array_index (answers->feet, double, i) + (minus ? -1 : 1) * number->value;
    if (is_in (&row, pool, BW_UNIT_MM))
      return TRUE;
  }
  return FALSE;
}

/* Faces are named by their numbers. */
static gboolean
is_face (const Answers *answers, const Number *number, const char *line)
{
  JsonNode *faces = member (answers, "sheet.stone.faces");
  return number->begin - line >= 5 && strncmp (number->begin - 5, "face ", 5) == 0
         && number->value >= 1 && number->value <= json_node_get_double (faces);
}

/* "3 h 20 min" is told as hours. */
static gboolean
is_time (Number *number, const GArray *pool)
{
  Number minutes;
  if (number->unit != HOURS || !next_number (number->end, &minutes))
    return FALSE;
  number->value += minutes.value / 60;
  number->last_digit = 1 / 60.0;
  number->end = minutes.end;
  number->unit = PLAIN;
  return is_in (number, pool, BW_UNIT_MM);
}

/* Where the answer has rows for a millimetre, a page in inches has them for a tenth of an inch. */
static gboolean
is_of_a_tenth (const Reader *reader, Number number)
{
  double tenth = 2.54;
  if (reader->unit != BW_UNIT_INCH || !g_str_equal (sections[reader->section].heading, "Row ruler"))
    return FALSE;
  number.value /= tenth;
  number.last_digit /= tenth;
  return is_in (&number, reader->pool, BW_UNIT_MM);
}

static gboolean
is_constant (int section, const Number *number, const char *line)
{
  for (gsize i = 0; i < G_N_ELEMENTS (constants); i++) {
    const char *at = strstr (line, constants[i].words);
    if (g_str_equal (constants[i].heading, sections[section].heading) && at && number->begin >= at
        && number->begin < at + strlen (constants[i].words))
      return TRUE;
  }
  return FALSE;
}

static int
section_of (const char *line)
{
  for (gsize i = 1; i < G_N_ELEMENTS (sections); i++) {
    const char *heading = sections[i].heading;
    if (g_str_equal (line, heading)
        || (g_str_has_prefix (line, heading) && g_str_has_prefix (heading, "What you need")))
      return (int)i;
  }
  return -1;
}

/* A space for every byte of a name, so that its digits are no numbers. */
static void
blank_names (const Answers *answers, char *line)
{
  for (guint i = 0; i < answers->names->len; i++) {
    const char *name = g_ptr_array_index (answers->names, i);
    for (char *at = line; name && *name && (at = strstr (at, name));)
      memset (at, ' ', strlen (name));
  }
}

static void
check_line (Reader *reader, char *line)
{
  Number number;
  blank_names (reader->answers, line);
  for (const char *at = line; next_number (at, &number); at = number.end) {
    reader->looked_up++;
    if (is_time (&number, reader->pool) || is_in (&number, reader->pool, reader->unit)
        || is_of_a_tenth (reader, number)
        || is_row_told_from_another (reader->answers, &number, line, reader->pool)
        || is_face (reader->answers, &number, line) || is_constant (reader->section, &number, line))
      continue;
    print_message ("under “%s”: %.*s in “%s”\n", sections[reader->section].heading,
                   (int)(number.end - number.begin), number.begin, line);
    reader->lost++;
  }
}

/* The numbers of pages are the file's, and so is its day. */
static gboolean
is_of_the_file (const char *line, gboolean in_contents)
{
  return strstr (line, " page ") || g_str_has_suffix (line, " 2001")
         || (in_contents && strspn (line, "0123456789") == strlen (line))
         || g_str_has_prefix (line, "Maker ");
}

static void
enter (Reader *reader, int section)
{
  reader->section = section;
  g_clear_pointer (&reader->pool, g_array_unref);
  reader->pool = pool_of (reader->answers, section);
}

static void
check_pages (Reader *reader, const char *text)
{
  g_auto (GStrv) lines = g_strsplit_set (text, "\n\f", -1);
  gboolean in_contents = FALSE;
  enter (reader, 0);
  for (char **line = lines; *line; line++) {
    int section = section_of (*line);
    if (g_str_equal (*line, "The way through these pages"))
      in_contents = TRUE;
    else if (in_contents && strstr (*line, " page "))
      in_contents = FALSE;
    else if (section >= 0 && !in_contents)
      enter (reader, section);
    if (**line && !is_of_the_file (*line, in_contents))
      check_line (reader, *line);
  }
  g_array_unref (reader->pool);
}

/* Prints the work sheet, or the kit of so many, and looks every number up. */
static void
assert_told (const Printed *printed, BwProject *project, BwPaper paper, int makers)
{
  Reader reader = { .answers = answers_new (project, makers), .unit = bw_paper_unit (paper) };
  printed_print (printed, makers > 0 ? bw_kit_new (project, paper, makers, NULL)
                                     : bw_sheet_new (project, paper, NULL, NULL));
  g_autofree char *text = printed_text (printed);
  check_pages (&reader, text);
  answers_free (reader.answers);
  assert_true (reader.looked_up > 100);
  if (reader.lost > 0)
    fail_msg ("%d of %d numbers of “%s” are in no answer", reader.lost, reader.looked_up,
              bw_project_get_title (project));
}

static void
every_number_on_the_sheets_of_the_demos_is_in_the_json (void **state)
{
  BwProject *project;
  for (int i = 0; i < few (3) && (project = printed_demo (i)); i++) {
    assert_told (*state, project, BW_PAPER_A4, 0);
    assert_told (*state, project, BW_PAPER_A4, 3);
    g_object_unref (project);
  }
}

static void
every_number_on_the_sheets_in_inches_is_in_the_json (void **state)
{
  BwProject *project;
  for (int i = 0; i < few (3) && (project = printed_demo (i)); i++) {
    BwPaper paper = BW_PAPER_LETTER;
    paper.wishes = BW_PRINT_INCHES;
    assert_told (*state, project, paper, 0);
    assert_told (*state, project, paper, 3);
    g_object_unref (project);
  }
}

static void
every_number_on_the_sheets_of_random_designs_is_in_the_json (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (811);
  for (int i = 0; i < few (10); i++) {
    g_autoptr (Sample) sample
        = sample_new (rand, 2 * g_rand_int_range (rand, 3, 14), 0, (SampleBail)(i % 5));
    sample->prices = i % 2;
    sample->taper = i % 3 == 0;
    g_autofree char *json = sample_json (sample);
    g_autoptr (BwProject) project = bw_project_load_data (json, strlen (json), NULL);
    assert_non_null (project);
    BwPaper paper = i % 2 ? BW_PAPER_LETTER : BW_PAPER_A5;
    paper.wishes = BW_PRINT_COSTS | (i % 3 == 1 ? BW_PRINT_INCHES : 0);
    assert_told (*state, project, paper, 0);
  }
}

static int
set_up (void **state)
{
  g_setenv ("SOURCE_DATE_EPOCH", "1000000000", TRUE);
  *state = printed_new ();
  return 0;
}

static int
tear_down (void **state)
{
  printed_free (*state);
  return 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_number_on_the_sheets_of_the_demos_is_in_the_json),
    cmocka_unit_test (every_number_on_the_sheets_in_inches_is_in_the_json),
    cmocka_unit_test (every_number_on_the_sheets_of_random_designs_is_in_the_json),
  };
  return cmocka_run_group_tests_name ("numbers", tests, set_up, tear_down);
}
