/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead is a shape among the letters, so that pango breaks the lines. A name is known by what
 * the words call it; text that is none of a colour's is left as it is. */
#include "output/sheet/bead-words.h"

#include "output/chart/mark.h"
#include "output/page/page.h"
#include "output/words/words.h"

#include <string.h>

/* The bead's picture among the letters: its size in points, how deep it reaches below the line they
 * stand on, and the room after it. */
static const struct {
  double wide, tall, deep, room;
} bead = { 19, 14, 2.6, 2 };

#define OBJECT "\357\277\274" /* U+FFFC, which pango draws as a shape */
#define NO_BREAK "\302\240"   /* U+00A0 */
#define THIN "\342\200\257"   /* U+202F, narrow and unbroken */
#define JOINER "\342\201\240" /* U+2060: a line may otherwise end beside a shape */

struct _BwBeadWords {
  const BwTray *tray;
  gboolean pictures;
  char **labels;  /* as the words have them */
  gsize *lengths; /* of the labels */
  BwMarkPen pen;
};

BwBeadWords *
bw_bead_words_new (const BwTray *tray, gboolean pictures)
{
  BwBeadWords *words = g_new0 (BwBeadWords, 1);
  words->tray = tray;
  words->pictures = pictures;
  words->labels = bw_words_labels (tray);
  words->lengths = g_new0 (gsize, tray->n_colours);
  for (int i = 0; i < tray->n_colours; i++)
    words->lengths[i] = strlen (words->labels[i]);
  bw_mark_pen_init (&words->pen, tray, bead.wide, bead.tall);
  return words;
}

void
bw_bead_words_free (BwBeadWords *words)
{
  bw_mark_pen_clear (&words->pen);
  g_strfreev (words->labels);
  g_free (words->lengths);
  g_free (words);
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
  y += bead.deep - bead.tall;
  bw_mark_draw (cr, words->tray, colour, x, y, bead.wide, bead.tall);
  bw_mark_pen_draw (&words->pen, cr, colour, x, y);
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
add_shape (PangoAttrList *attributes, gsize at, int colour)
{
  PangoRectangle box
      = { 0, pango_units_from_double (bead.deep - bead.tall),
          pango_units_from_double (bead.wide + bead.room), pango_units_from_double (bead.tall) };
  PangoAttribute *shape
      = pango_attr_shape_new_with_data (&box, &box, GINT_TO_POINTER (colour), NULL, NULL);
  shape->start_index = (guint)at;
  shape->end_index = (guint)(at + strlen (OBJECT));
  pango_attr_list_insert (attributes, shape);
}

/* A colour by its letter: on its bead, or bare where there are no pictures. */
static void
add_letter (const BwBeadWords *words, int colour, GString *out, PangoAttrList *attributes)
{
  char letter[BW_TRAY_LETTER];
  if (words->pictures) {
    add_shape (attributes, out->len, colour);
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

PangoLayout *
bw_bead_words_bench (BwBeadWords *words, cairo_t *cr, const char *text, double width)
{
  g_autoptr (GString) out = g_string_new (NULL);
  PangoAttrList *attributes = pango_attr_list_new ();
  while (*text)
    text = take_short (words, text, out, attributes);
  PangoLayout *layout = bw_type_layout (cr, BW_TYPE_BENCH, out->str, width);
  pango_cairo_context_set_shape_renderer (pango_layout_get_context (layout), draw_shape, words,
                                          NULL);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}
