/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bead is a shape among the letters, so that pango breaks the lines. A name is known by what
 * the words call it; text that is none of a colour's is left as it is. */
#include "output/sheet/bead-words.h"

#include "output/chart/mark.h"
#include "output/page/page.h"
#include "output/words/words.h"

#include <string.h>

#define WIDE 12.5 /* the bead's picture, points */
#define TALL 9.0
#define DEEP 1.6 /* below the line the letters stand on */
#define LONGEST_GLUED 24
#define ROOM 3.0 /* between bead and name */

#define OBJECT "\357\277\274" /* U+FFFC, which pango draws as a shape */
#define NO_BREAK "\302\240"   /* U+00A0 */
#define JOINER "\342\201\240" /* U+2060: a line may otherwise end beside a shape */

struct _BwBeadWords {
  const BwTray *tray;
  gboolean pictures;
  char **labels;  /* as the words have them */
  char **printed; /* as they are printed */
  gsize *lengths; /* of the labels */
  BwMarkPen pen;
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
  bw_mark_pen_init (&words->pen, tray, WIDE, TALL);
  return words;
}

void
bw_bead_words_free (BwBeadWords *words)
{
  bw_mark_pen_clear (&words->pen);
  g_strfreev (words->labels);
  g_strfreev (words->printed);
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
  y += DEEP - TALL;
  bw_mark_draw (cr, words->tray, colour, x, y, WIDE, TALL);
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
  PangoRectangle box = { 0, pango_units_from_double (DEEP - TALL),
                         pango_units_from_double (WIDE + ROOM), pango_units_from_double (TALL) };
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
    add_shape (attributes, out->len, colour);
    g_string_append (out, OBJECT JOINER);
  }
  g_string_append (out, words->printed[colour]);
  return text + digits + 1 + words->lengths[colour];
}

PangoLayout *
bw_bead_words_layout (BwBeadWords *words, cairo_t *cr, const char *text, double width)
{
  g_autoptr (GString) out = g_string_new (NULL);
  PangoAttrList *attributes = pango_attr_list_new ();
  while (*text)
    text = take_item (words, text, out, attributes);
  PangoLayout *layout = bw_type_layout (cr, BW_TYPE_TEXT, out->str, width);
  pango_cairo_context_set_shape_renderer (pango_layout_get_context (layout), draw_shape, words,
                                          NULL);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}
