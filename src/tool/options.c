/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small parser of our own: options stand before or after the command and the file, negative
 * numbers are values, numbers are read the same in every locale, and each mistake is one sentence.
 */
#include "config.h"

#include "tool/options.h"

#include "core/base/limits.h"
#include "project/document/length.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

GQuark
bw_usage_quark (void)
{
  return g_quark_from_static_string ("bw-usage");
}

static gboolean
take_output (BwOptions *options, const char *value)
{
  options->output = value;
  return *value != '\0';
}

static gboolean
take_integer (const char *value, int least, int most, int *result)
{
  gint64 number;
  if (!g_ascii_string_to_signed (value, 10, least, most, &number, NULL))
    return FALSE;
  *result = (int)number;
  return TRUE;
}

static gboolean
take_rows (BwOptions *options, const char *value)
{
  return take_integer (value, BW_ROWS_MIN, BW_ROWS_MAX, &options->rows);
}

static gboolean
take_pieces (BwOptions *options, const char *value)
{
  return take_integer (value, 1, BW_PIECES_MAX, &options->pieces);
}

static gboolean
take_section (BwOptions *options, const char *value)
{
  return bw_length_parse (value, BW_UNIT_MM, &options->section_mm, NULL);
}

/* Plain decimal notation alone: no "nan", no hexadecimal, nothing after the number. */
static gboolean
take_decimal (const char *value, double most, double *result)
{
  char *end;
  if (!*value || value[strspn (value, "+-.0123456789eE")] != '\0')
    return FALSE;
  *result = g_ascii_strtod (value, &end);
  return *end == '\0' && isfinite (*result) && fabs (*result) <= most;
}

static gboolean
take_turn (BwOptions *options, const char *value)
{
  return take_decimal (value, 1e6, &options->turn_deg);
}

static gboolean
take_tip (BwOptions *options, const char *value)
{
  return take_decimal (value, 90, &options->tip_deg);
}

/* "WxH", or one number for a square. */
static gboolean
take_size (BwOptions *options, const char *value)
{
  g_auto (GStrv) sides = g_strsplit (value, "x", -1);
  if (g_strv_length (sides) == 1
      && take_integer (value, BW_PICTURE_MIN, BW_PICTURE_MAX, &options->width)) {
    options->height = options->width;
    return TRUE;
  }
  return g_strv_length (sides) == 2
         && take_integer (sides[0], BW_PICTURE_MIN, BW_PICTURE_MAX, &options->width)
         && take_integer (sides[1], BW_PICTURE_MIN, BW_PICTURE_MAX, &options->height);
}

static gboolean
take_frames (BwOptions *options, const char *value)
{
  return take_integer (value, BW_TURNTABLE_LEAST, BW_TURNTABLE_MOST, &options->frames);
}

static gboolean
take_ground (BwOptions *options, const char *value)
{
  return bw_ground_parse (value, &options->ground);
}

static gboolean
take_view (BwOptions *options, const char *value)
{
  static const char *const views[] = { "front", "join", "above", "rest", NULL };
  options->view = value;
  return g_strv_contains (views, value);
}

static gboolean
take_paper (BwOptions *options, const char *value)
{
  return bw_paper_from_word (value, &options->paper);
}

static gboolean
take_near (BwOptions *options, const char *value)
{
  return take_decimal (value, BW_NEAR_MOST, &options->near) && options->near >= 1;
}

static gboolean
take_kit (BwOptions *options, const char *value)
{
  return take_integer (value, 1, BW_KIT_MAX, &options->kit);
}

static gboolean
take_reading (BwOptions *options, const char *value)
{
  return take_decimal (value, BW_STRIP_MAX_MM, &options->reading);
}

/* One of two words: whether it is the second. */
static gboolean
take_word (const char *value, const char *first, const char *second, gboolean *is_second)
{
  *is_second = g_str_equal (value, second);
  return *is_second || g_str_equal (value, first);
}

static gboolean
take_light (BwOptions *options, const char *value)
{
  return take_word (value, "day", "lamp", &options->by_lamp);
}

static gboolean
take_how (BwOptions *options, const char *value)
{
  gboolean pulled;
  gboolean known = take_word (value, "slack", "pulled", &pulled);
  options->how = pulled ? BW_TRIED_PULLED : BW_TRIED_SLACK;
  return known;
}

static gboolean
take_unit (BwOptions *options, const char *value)
{
  return take_word (value, "mm", "beads", &options->in_beads);
}

static gboolean
take_units (BwOptions *options, const char *value)
{
  gboolean inches;
  gboolean known = take_word (value, "mm", "in", &inches);
  options->units = inches ? BW_UNIT_INCH : BW_UNIT_MM;
  return known;
}

static gboolean
take_tool (BwOptions *options, const char *value)
{
  gboolean calliper;
  gboolean known = take_word (value, "eye", "calliper", &calliper);
  options->tool = calliper ? BW_TRIED_BY_CALLIPER : BW_TRIED_BY_EYE;
  return known;
}

static gboolean
take_stone (BwOptions *options, const char *value)
{
  options->stone = value;
  return *value != '\0';
}

static gboolean
take_by_hand (BwOptions *options, const char *value)
{
  static const char *const words[BW_N_ANEW] = { "repeat", "stretch", "ground" };
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++)
    if (g_str_equal (value, words[way])) {
      options->by_hand = way;
      return TRUE;
    }
  return FALSE;
}

static gboolean
take_want (BwOptions *options, const char *value)
{
  static const char *const words[] = { "level", "tip-down", "tip-up" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (value, words[i])) {
      options->want = (BwWant)i;
      return TRUE;
    }
  return FALSE;
}

static gboolean
take_seed (BwOptions *options, const char *value)
{
  return take_integer (value, 0, 1000, &options->seed);
}

static gboolean
take_limit (BwOptions *options, const char *value)
{
  return take_integer (value, 1, 100, &options->limit);
}

static gboolean
take_book (BwOptions *options, const char *value)
{
  options->book = value;
  return *value != '\0';
}

static gboolean
take_bead (BwOptions *options, const char *value)
{
  options->bead = value;
  return *value != '\0';
}

static gboolean
take_from (BwOptions *options, const char *value)
{
  options->from = value;
  return *value != '\0';
}

typedef struct {
  BwOption flag;
  const char *name;  /* without its dashes */
  const char *value; /* what the value is called; NULL without one */
  gboolean (*take) (BwOptions *options, const char *value);
  const char *wants; /* what a value must be */
  const char *help;
} Kind;

/* The sentences below name these bounds. */
G_STATIC_ASSERT (BW_ROWS_MIN == 1 && BW_ROWS_MAX == 20000 && BW_PIECES_MAX == 10000);
G_STATIC_ASSERT (BW_PAPER_LEAST_MM == 180 && BW_PAPER_MOST_MM == 1200);
G_STATIC_ASSERT (BW_PICTURE_MIN == 16 && BW_PICTURE_MAX == 8192 && BW_KIT_MAX == 1000);
G_STATIC_ASSERT (BW_NEAR_MOST == 20);
G_STATIC_ASSERT (BW_TURNTABLE_LEAST == 2 && BW_TURNTABLE_MOST == 360 && BW_TURNTABLE_USUAL == 36);

static const Kind kinds[] = {
  { BW_OPTION_JSON, "json", NULL, NULL, NULL, N_ ("print one JSON object instead of text") },
  { BW_OPTION_CSV, "csv", NULL, NULL, NULL, N_ ("print comma-separated values") },
  { BW_OPTION_ROWS, "rows", N_ ("R"), take_rows, N_ ("a whole number from 1 to 20000"),
    N_ ("as if the band had R rows (try-on: the rows woven)") },
  { BW_OPTION_SECTION, "section", N_ ("Z"), take_section, N_ ("a height in millimetres"),
    N_ ("the section at height Z (mm above the base) alone") },
  { BW_OPTION_ALL, "all", NULL, NULL, NULL, N_ ("the passes in the hole of every bead too") },
  { BW_OPTION_PIECES, "pieces", N_ ("K"), take_pieces, N_ ("a whole number from 1 to 10000"),
    N_ ("for K pieces") },
  { BW_OPTION_OUTPUT, "output", N_ ("FILE"), take_output, N_ ("a file name"),
    N_ ("the file to write (also -o FILE)") },
  { BW_OPTION_SIZE, "size", N_ ("WxH"), take_size,
    N_ ("a width and a height in pixels, such as 800x600, or one for a square, from 16 to 8192"),
    N_ ("width and height in pixels (800x800)") },
  { BW_OPTION_TURN, "turn", N_ ("DEG"), take_turn, N_ ("an angle in degrees"),
    N_ ("look from so many degrees round the stone, 0 being face 1 (0)") },
  { BW_OPTION_TIP, "tip", N_ ("DEG"), take_tip, N_ ("an angle from -90 to 90 degrees"),
    N_ ("look from this many degrees above (0)") },
  { BW_OPTION_GROUND, "ground", N_ ("WORD"), take_ground, N_ ("clear, paper or dark"),
    N_ ("clear, paper or dark: what the piece stands on (clear)") },
  { BW_OPTION_LIGHT, "light", N_ ("WORD"), take_light, N_ ("day or lamp"),
    N_ ("day or lamp (day)") },
  { BW_OPTION_NEAR, "near", N_ ("N"), take_near, N_ ("a number from 1 to 20"),
    N_ ("N times as large, the band in the middle (1)") },
  { BW_OPTION_VIEW, "view", N_ ("WORD"), take_view, N_ ("front, join, above or rest"),
    N_ ("front, join, above, or rest: hanging; instead of --turn and --tip") },
  { BW_OPTION_PAPER, "paper", N_ ("SIZE"), take_paper,
    N_ ("a4, a5, letter, or a width and a height in millimetres such as 216x356, each from 180 to "
        "1200"),
    N_ ("a4, a5, letter or WxH in mm, 180 to 1200 (a4)") },
  { BW_OPTION_KIT, "kit", N_ ("K"), take_kit, N_ ("a whole number from 1 to 1000"),
    N_ ("a kit sheet for a class of K makers instead") },
  { BW_OPTION_READING, "reading", N_ ("X"), take_reading, N_ ("a number"),
    N_ ("by how much the ends miss each other; negative: they overlap") },
  { BW_OPTION_HOW, "how", N_ ("WORD"), take_how, N_ ("slack or pulled"),
    N_ ("slack or pulled: how the strip lay when it was read (slack)") },
  { BW_OPTION_UNIT, "unit", N_ ("WORD"), take_unit, N_ ("mm or beads"),
    N_ ("mm or beads: what the reading is in (mm)") },
  { BW_OPTION_TOOL, "tool", N_ ("WORD"), take_tool, N_ ("eye or calliper"),
    N_ ("eye or calliper (calliper for mm, eye for beads)") },
  { BW_OPTION_BOOK, "book", N_ ("FILE"), take_book, N_ ("a file name"),
    N_ ("the maker's book (your own)") },
  { BW_OPTION_WANT, "want", N_ ("WORD"), take_want, N_ ("level, tip-down or tip-up"),
    N_ ("level, tip-down or tip-up: how it is to hang (any way)") },
  { BW_OPTION_SEED, "seed", N_ ("N"), take_seed, N_ ("a whole number from 0 to 1000"),
    N_ ("begin the choice elsewhere (0)") },
  { BW_OPTION_LIMIT, "limit", N_ ("K"), take_limit, N_ ("a whole number from 1 to 100"),
    N_ ("tell at most K (8)") },
  { BW_OPTION_STONE, "stone", N_ ("FILE"), take_stone, N_ ("a file name"),
    N_ ("the project whose stone it is laid on") },
  { BW_OPTION_BY_HAND, "by-hand", N_ ("WORD"), take_by_hand, N_ ("repeat, stretch or ground"),
    N_ ("beads set by hand: repeat, stretch or ground (repeat)") },
  { BW_OPTION_LARGE, "large", NULL, NULL, NULL, N_ ("large print") },
  { BW_OPTION_SPARING, "sparing", NULL, NULL, NULL,
    N_ ("spare ink: white beads with their letters and marks alone") },
  { BW_OPTION_COSTS, "costs", NULL, NULL, NULL, N_ ("print prices and wages too") },
  { BW_OPTION_FINE, "fine", NULL, NULL, NULL,
    N_ ("follow the light through glass and stone; takes a minute or so") },
  { BW_OPTION_BEAD, "bead", N_ ("NAME"), take_bead, N_ ("a bead’s name"),
    N_ ("the one of this name alone") },
  { BW_OPTION_FROM, "from", N_ ("FILE"), take_from, N_ ("a file name"),
    N_ ("the other book, a part of one, or the photograph") },
  { BW_OPTION_TURNTABLE, "turntable", NULL, NULL, NULL,
    N_ ("once round: numbered pictures, or one animated picture where FILE ends in .webp") },
  { BW_OPTION_FRAMES, "frames", N_ ("N"), take_frames, N_ ("a whole number from 2 to 360"),
    N_ ("pictures on the way round, or of the weaving (36)") },
  { BW_OPTION_PLAY, "play", NULL, NULL, NULL,
    N_ ("the piece being woven, from bare stone to the last end: numbered pictures") },
  { BW_OPTION_UNITS, "units", N_ ("WORD"), take_units, N_ ("mm or in"),
    N_ ("mm or in: what lengths are told in, in text and on paper (mm)") },
  { BW_OPTION_HELP, "help", NULL, NULL, NULL, N_ ("tell how the command is used (also -h)") },
  { BW_OPTION_VERSION, "version", NULL, NULL, NULL, N_ ("print the version") },
};

static const Kind *
find_kind (const char *name, gsize length)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strlen (kinds[i].name) == length && strncmp (kinds[i].name, name, length) == 0)
      return &kinds[i];
  return NULL;
}

/* "-o FILE", "-oFILE", "-h": the short spellings as the long ones. value: what follows at once. */
static const Kind *
find_short (const char *word, const char **value)
{
  *value = NULL;
  if (word[1] == 'h' && !word[2])
    return find_kind ("help", 4);
  if (word[1] != 'o')
    return NULL;
  *value = word[2] ? word + 2 : NULL;
  return find_kind ("output", 6);
}

static const Kind *
find_long (const char *word, const char **value)
{
  const char *equals = strchr (word, '=');
  *value = equals ? equals + 1 : NULL;
  return find_kind (word + 2, equals ? (gsize)(equals - word - 2) : strlen (word + 2));
}

static gboolean
wrong (GError **error, const char *format, const char *what, const char *more)
{
  g_autofree char *shown = g_utf8_make_valid (what, -1);
  g_autofree char *also = more ? g_utf8_make_valid (more, -1) : NULL;
  g_autoptr (GString) message = g_string_new (format);
  g_string_replace (message, "%1", shown, 1);
  g_string_replace (message, "%2", also ? also : "", 1);
  g_set_error_literal (error, BW_USAGE, BW_USAGE_WRONG, message->str);
  return FALSE;
}

static gboolean
take_value (BwOptions *options, const Kind *kind, const char *word, const char *value,
            GError **error)
{
  if (!value)
    /* Translators: %1 is an option, %2 what its value must be. */
    return wrong (error, _ ("%1 wants %2"), word, _ (kind->wants));
  if (kind->take (options, value))
    return TRUE;
  g_autofree char *found = g_strdup_printf ("%s: '%s'", word, value);
  /* Translators: %1 is an option and the value found, %2 what it must be. */
  return wrong (error, _ ("%1 is not %2"), found, _ (kind->wants));
}

/* Reads the option at argv[*i] and its value; *i is left at the last word read. */
static gboolean
parse_option (BwOptions *options, int argc, char **argv, int *i, GError **error)
{
  const char *word = argv[*i], *value;
  const Kind *kind = word[1] == '-' ? find_long (word, &value) : find_short (word, &value);
  if (!kind)
    return wrong (error, _ ("unknown option %1"), word, NULL);
  if (!kind->take && value)
    return wrong (error, _ ("--%1 takes no value"), kind->name, NULL);
  options->given |= kind->flag;
  if (!kind->take)
    return TRUE;
  if (!value && *i + 1 < argc)
    value = argv[++*i];
  g_autofree char *name = g_strconcat ("--", kind->name, NULL);
  return take_value (options, kind, name, value, error);
}

gboolean
bw_options_parse (BwOptions *options, int argc, char **argv, GError **error)
{
  gboolean ended = FALSE;
  *options = (BwOptions){ .width = 800,
                          .height = 800,
                          .frames = BW_TURNTABLE_USUAL,
                          .paper = BW_PAPER_A4,
                          .how = BW_TRIED_SLACK,
                          .limit = 8,
                          .near = 1,
                          .words = g_ptr_array_new () };
  for (int i = 1; i < argc; i++) {
    if (!ended && strcmp (argv[i], "--") == 0)
      ended = TRUE;
    else if (ended || argv[i][0] != '-' || !argv[i][1])
      g_ptr_array_add (options->words, argv[i]);
    else if (!parse_option (options, argc, argv, &i, error))
      return FALSE;
  }
  return TRUE;
}

void
bw_options_clear (BwOptions *options)
{
  g_clear_pointer (&options->words, g_ptr_array_unref);
}

gboolean
bw_options_check (const BwOptions *options, guint64 allowed, const char *command, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (options->given & kinds[i].flag & ~allowed)
      /* Translators: %1 is an option, %2 a command. */
      return wrong (error, _ ("--%1 does not go with '%2'"), kinds[i].name, command);
  return TRUE;
}

void
bw_options_describe (GString *text, guint64 which)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++) {
    if (!(which & kinds[i].flag))
      continue;
    g_autofree char *usage = kinds[i].value
                                 ? g_strdup_printf ("--%s %s", kinds[i].name, _ (kinds[i].value))
                                 : g_strdup_printf ("--%s", kinds[i].name);
    g_string_append_printf (text, "  %-16s %s\n", usage, _ (kinds[i].help));
  }
}
