/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead is a shape among the letters, so that pango breaks the lines. A name is known by what
 * the words call it; text that is none of a colour's is left as it is. */
#include "output/sheet/bead-words.h"

#include "output/chart/mark.h"
#include "output/page/page.h"
#include "output/words/words.h"

#include <string.h>

#define LONGEST_GLUED 24

/* The bead's picture among letters of a type. */
typedef struct {
  double wide, tall; /* points */
  double deep;       /* below the line the letters stand on */
  double room;       /* after it */
} Size;

static const Size beside_names = { 12.5, 9, 1.6, 3 }, at_the_bench = { 19, 14, 2.6, 2 };

#define OBJECT "\357\277\274" /* U+FFFC, which pango draws as a shape */
#define NO_BREAK "\302\240"   /* U+00A0 */
#define THIN "\342\200\257"   /* U+202F, narrow and unbroken */
#define JOINER "\342\201\240" /* U+2060: a line may otherwise end beside a shape */

struct _BwBeadWords {
  const BwTray *tray;
  gboolean pictures;
  char **labels;  /* as the words have them */
  char **printed; /* as they are printed */
  gsize *lengths; /* of the labels */
  BwMarkPen pen, bench_pen;
};

/* A name of two or three words is not parted at a line's end; a long one may be. */
static char *
glue (const char *label)
{
  GString *text = g_string_new (label);
  if (g_utf8_strlen (label, -1) <= LONGEST_GLUED)
    g_string_replace (text, " ", NO_BREAK, 0);
  return g_string_free (text, FALSE);
}

BwBeadWords *
bw_bead_words_new (const BwTray *tray, gboolean pictures)
{
  BwBeadWords *words = g_new0 (BwBeadWords, 1);
  words->tray = tray;
  words->pictures = pictures;
  words->labels = bw_words_labels (tray);
  words->printed = g_new0 (char *, tray->n_colours + 1);
  words->lengths = g_new0 (gsize, tray->n_colours);
  for (int i = 0; i < tray->n_colours; i++) {
    words->lengths[i] = strlen (words->labels[i]);
    words->printed[i] = glue (words->labels[i]);
  }
  bw_mark_pen_init (&words->pen, tray, beside_names.wide, beside_names.tall);
  bw_mark_pen_init (&words->bench_pen, tray, at_the_bench.wide, at_the_bench.tall);
  return words;
}

void
bw_bead_words_free (BwBeadWords *words)
{
  bw_mark_pen_clear (&words->pen);
  bw_mark_pen_clear (&words->bench_pen);
  g_strfreev (words->labels);
  g_strfreev (words->printed);
  g_free (words->lengths);
  g_free (words);
}

static gboolean
is_large (const PangoAttrShape *shape)
{
  return shape->ink_rect.height > pango_units_from_double (beside_names.tall);
}

static void
draw_shape (cairo_t *cr, PangoAttrShape *shape, gboolean do_path, gpointer data)
{
  BwBeadWords *words = data;
  int colour = GPOINTER_TO_INT (shape->data);
  double x, y;
  if (do_path)
    return;
  cairo_get_current_point (cr, &x, &y);
  cairo_save (cr);
  const Size *size = is_large (shape) ? &at_the_bench : &beside_names;
  y += size->deep - size->tall;
  bw_mark_draw (cr, words->tray, colour, x, y, size->wide, size->tall);
  bw_mark_pen_draw (is_large (shape) ? &words->bench_pen : &words->pen, cr, colour, x, y);
  cairo_restore (cr);
}

/* The colour whose label stands here, up to the end or a comma; −1 when none does. The longest
 * label wins: another may begin like it. */
static int
colour_at (const BwBeadWords *words, const char *text)
{
  int found = -1;
  for (int i = 0; i < words->tray->n_colours; i++) {
    gsize n = words->lengths[i];
    if (strncmp (text, words->labels[i], n) == 0 && (text[n] == '\0' || text[n] == ',')
        && (found < 0 || n > words->lengths[found]))
      found = i;
  }
  return found;
}

static void
add_shape (PangoAttrList *attributes, gsize at, int colour, const Size *size)
{
  PangoRectangle box
      = { 0, pango_units_from_double (size->deep - size->tall),
          pango_units_from_double (size->wide + size->room), pango_units_from_double (size->tall) };
  PangoAttribute *shape
      = pango_attr_shape_new_with_data (&box, &box, GINT_TO_POINTER (colour), NULL, NULL);
  shape->start_index = (guint)at;
  shape->end_index = (guint)(at + strlen (OBJECT));
  pango_attr_list_insert (attributes, shape);
}

/* Takes one item, "3 Night water", or what is none up to the next blank. */
static const char *
take_item (const BwBeadWords *words, const char *text, GString *out, PangoAttrList *attributes)
{
  gsize digits = strspn (text, "0123456789");
  int colour = digits > 0 && text[digits] == ' ' ? colour_at (words, text + digits + 1) : -1;
  if (colour < 0) {
    gsize n = strcspn (text, " ");
    n += text[n] == ' ';
    g_string_append_len (out, text, (gssize)n);
    return text + n;
  }
  g_string_append_len (out, text, (gssize)digits);
  g_string_append (out, NO_BREAK);
  if (words->pictures) {
    g_string_append (out, JOINER);
    add_shape (attributes, out->len, colour, &beside_names);
    g_string_append (out, OBJECT JOINER);
  }
  g_string_append (out, words->printed[colour]);
  return text + digits + 1 + words->lengths[colour];
}

/* A colour by its letter: on its bead, or bare where there are no pictures. */
static void
add_letter (const BwBeadWords *words, int colour, GString *out, PangoAttrList *attributes)
{
  char letter[BW_TRAY_LETTER];
  if (words->pictures) {
    add_shape (attributes, out->len, colour, &at_the_bench);
    g_string_append (out, OBJECT);
    return;
  }
  bw_tray_print_letter (words->tray, colour, letter);
  g_string_append (out, letter);
}

/* Takes "3 Night water, " as "3A · ", one bead without its number; or what is none. */
static const char *
take_short (const BwBeadWords *words, const char *text, GString *out, PangoAttrList *attributes)
{
  gsize digits = strspn (text, "0123456789");
  int colour = digits > 0 && text[digits] == ' ' ? colour_at (words, text + digits + 1) : -1;
  if (colour < 0) {
    gsize n = strcspn (text, " ");
    n += text[n] == ' ';
    g_string_append_len (out, text, (gssize)n);
    return text + n;
  }
  if (digits > 1 || *text != '1') {
    g_string_append_len (out, text, (gssize)digits);
    g_string_append (out, words->pictures ? THIN JOINER : JOINER);
  }
  add_letter (words, colour, out, attributes);
  text += digits + 1 + words->lengths[colour];
  if (text[0] != ',')
    return text;
  g_string_append (out, NO_BREAK "· ");
  return text + 1 + strspn (text + 1, " ");
}

typedef const char *(*Take) (const BwBeadWords *words, const char *text, GString *out,
                             PangoAttrList *attributes);

static PangoLayout *
layout_of (BwBeadWords *words, cairo_t *cr, BwType type, Take take, const char *text, double width)
{
  g_autoptr (GString) out = g_string_new (NULL);
  PangoAttrList *attributes = pango_attr_list_new ();
  while (*text)
    text = take (words, text, out, attributes);
  PangoLayout *layout = bw_type_layout (cr, type, out->str, width);
  pango_cairo_context_set_shape_renderer (pango_layout_get_context (layout), draw_shape, words,
                                          NULL);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

PangoLayout *
bw_bead_words_layout (BwBeadWords *words, cairo_t *cr, const char *text, double width)
{
  return layout_of (words, cr, BW_TYPE_TEXT, take_item, text, width);
}

PangoLayout *
bw_bead_words_bench (BwBeadWords *words, cairo_t *cr, const char *text, double width)
{
  return layout_of (words, cr, BW_TYPE_BENCH, take_short, text, width);
}
