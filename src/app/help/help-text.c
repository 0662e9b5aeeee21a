/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a paragraph stands tells what it is: the elements about it are asked for, the nearest
 * first. */
#include "app/help/help-text.h"

#include <string.h>

typedef struct {
  BwHelpText *text;
  GString *words; /* of the paragraph or title that is open; NULL between them */
  int step;
  int key;   /* of a combination, from 1; 0 outside one */
  char *row; /* the first cell of a row */
  char *image;
} Reader;

static const struct {
  const char *element, *before, *after;
} inlines[] = {
  { "em", "<i>", "</i>" },  { "gui", "<b>", "</b>" }, { "key", "<tt><b>", "</b></tt>" },
  { "link", NULL, "</a>" }, { "keyseq", "", "" },
};

static void
free_block (gpointer data)
{
  BwHelpBlock *block = data;
  g_free (block->markup);
  g_free (block->keys);
  g_free (block->file);
  g_free (block);
}

void
bw_help_text_free (BwHelpText *text)
{
  g_free (text->title);
  g_ptr_array_unref (text->blocks);
  g_ptr_array_unref (text->others);
  g_free (text);
}

/* The first of these elements that the reader stands in; NULL for none. */
static const char *
nearest (GMarkupParseContext *context, const char *const *elements)
{
  for (const GSList *e = g_markup_parse_context_get_element_stack (context); e; e = e->next)
    if (g_strv_contains (elements, e->data))
      return e->data;
  return NULL;
}

static gboolean
stands_in (GMarkupParseContext *context, const char *element)
{
  const char *const one[] = { element, NULL };
  return nearest (context, one) != NULL;
}

static const char *
attribute (const char **names, const char **values, const char *name)
{
  for (int i = 0; names[i]; i++)
    if (g_str_equal (names[i], name))
      return values[i];
  return NULL;
}

static void
open_inline (Reader *reader, const char *element, const char *xref)
{
  for (gsize i = 0; reader->words && i < G_N_ELEMENTS (inlines); i++) {
    if (!g_str_equal (inlines[i].element, element))
      continue;
    if (inlines[i].before)
      g_string_append (reader->words, inlines[i].before);
    else {
      g_autofree char *address = g_markup_printf_escaped ("<a href=\"%s\">", xref ? xref : "");
      g_string_append (reader->words, address);
    }
  }
}

static void
element_begins (GMarkupParseContext *context, const char *element, const char **names,
                const char **values, gpointer data, GError **error)
{
  Reader *reader = data;
  const char *xref = attribute (names, values, "xref");
  if (g_str_equal (element, "p") || g_str_equal (element, "title")) {
    if (!reader->words)
      reader->words = g_string_new (NULL);
  } else if (g_str_equal (element, "steps"))
    reader->step = 0;
  else if (g_str_equal (element, "keyseq"))
    reader->key = 1;
  else if (g_str_equal (element, "media")) {
    g_free (reader->image);
    reader->image = g_strdup (attribute (names, values, "src"));
  } else if (g_str_equal (element, "link") && stands_in (context, "info")
             && g_strcmp0 (attribute (names, values, "type"), "seealso") == 0 && xref)
    g_ptr_array_add (reader->text->others, g_strdup (xref));
  if (g_str_equal (element, "key") && reader->words && reader->key > 0 && reader->key++ > 1)
    g_string_append (reader->words, " + ");
  open_inline (reader, element, xref);
}

static BwHelpBlock *
add (Reader *reader, BwHelpKind kind, char *markup)
{
  BwHelpBlock *block = g_new0 (BwHelpBlock, 1);
  block->kind = kind;
  block->markup = markup;
  g_ptr_array_add (reader->text->blocks, block);
  return block;
}

static void
end_title (Reader *reader, GMarkupParseContext *context, char *words)
{
  static const char *const places[] = { "item", "section", "page", NULL };
  const char *place = nearest (context, places);
  if (g_strcmp0 (place, "page") == 0 && !reader->text->title)
    reader->text->title = g_strdup (words);
  add (reader,
       g_strcmp0 (place, "item") == 0      ? BW_HELP_TERM
       : g_strcmp0 (place, "section") == 0 ? BW_HELP_HEADING
                                           : BW_HELP_TITLE,
       words);
}

static void
end_cell (Reader *reader, char *words)
{
  if (reader->row)
    add (reader, BW_HELP_ROW, g_steal_pointer (&reader->row))->keys = words;
  else
    reader->row = words;
}

static void
end_paragraph (Reader *reader, GMarkupParseContext *context, char *words)
{
  static const char *const places[] = { "media", "note", "td", "list", "steps", "terms", NULL };
  const char *place = nearest (context, places);
  if (!place)
    add (reader, BW_HELP_PARAGRAPH, words);
  else if (g_str_equal (place, "media"))
    add (reader, BW_HELP_IMAGE, words)->file = g_steal_pointer (&reader->image);
  else if (g_str_equal (place, "td"))
    end_cell (reader, words);
  else if (g_str_equal (place, "steps"))
    add (reader, BW_HELP_STEP, words)->number = ++reader->step;
  else
    add (reader,
         g_str_equal (place, "note")   ? BW_HELP_NOTE
         : g_str_equal (place, "list") ? BW_HELP_BULLET
                                       : BW_HELP_MEANING,
         words);
}

/* What is said of a page is not on it. */
static void
element_ends (GMarkupParseContext *context, const char *element, gpointer data, GError **error)
{
  Reader *reader = data;
  for (gsize i = 0; reader->words && i < G_N_ELEMENTS (inlines); i++)
    if (g_str_equal (inlines[i].element, element))
      g_string_append (reader->words, inlines[i].after);
  if (g_str_equal (element, "keyseq"))
    reader->key = 0;
  gboolean title = g_str_equal (element, "title");
  if (!reader->words || (!title && !g_str_equal (element, "p")))
    return;
  char *words = g_strstrip (g_string_free (g_steal_pointer (&reader->words), FALSE));
  if (stands_in (context, "info"))
    g_free (words);
  else if (title)
    end_title (reader, context, words);
  else
    end_paragraph (reader, context, words);
}

/* Blanks and ends of lines are one blank, as a page's author means them. */
static void
text_comes (GMarkupParseContext *context, const char *text, gsize length, gpointer data,
            GError **error)
{
  Reader *reader = data;
  if (!reader->words)
    return;
  g_autofree char *safe = g_markup_escape_text (text, (gssize)length);
  for (const char *c = safe; *c; c++) {
    gboolean blank = g_ascii_isspace (*c);
    if (!blank || (reader->words->len && reader->words->str[reader->words->len - 1] != ' '))
      g_string_append_c (reader->words, blank ? ' ' : *c);
  }
}

BwHelpText *
bw_help_text_parse (const char *page, gssize length, GError **error)
{
  static const GMarkupParser parser = { element_begins, element_ends, text_comes, NULL, NULL };
  Reader reader = { .text = g_new0 (BwHelpText, 1) };
  reader.text->blocks = g_ptr_array_new_with_free_func (free_block);
  reader.text->others = g_ptr_array_new_with_free_func (g_free);
  GMarkupParseContext *context
      = g_markup_parse_context_new (&parser, G_MARKUP_TREAT_CDATA_AS_TEXT, &reader, NULL);
  gboolean read = g_markup_parse_context_parse (context, page, length, error)
                  && g_markup_parse_context_end_parse (context, error);
  g_markup_parse_context_free (context);
  g_free (reader.row);
  g_free (reader.image);
  if (reader.words)
    g_string_free (reader.words, TRUE);
  if (!read)
    g_clear_pointer (&reader.text, bw_help_text_free);
  return reader.text;
}
