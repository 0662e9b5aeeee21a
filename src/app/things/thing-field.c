/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/things/thing-field.h"

#include "app/form/field.h"
#include "app/ask/colour-dialog.h"
#include "app/kit/long-list.h"
#include "app/kit/palette.h"
#include "app/kit/settings.h"
#include "project/document/line.h"
#include "project/file/sizes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MM_PER_M 1000.0
#define MM_PER_FT 304.8

static BwUnit
unit (void)
{
  return bw_settings_get_unit (bw_settings_get ());
}

static gpointer
place_of (const BwThingField *field, gconstpointer thing)
{
  return (char *)thing + field->offset;
}

/* What one of the field's numbers outside is inside. */
static double
scale_of (const BwThingField *field)
{
  if (field->sort != BW_THING_SPOOL)
    return 1;
  return unit () == BW_UNIT_INCH ? MM_PER_FT : MM_PER_M;
}

static BwField
number_field (const BwThingField *field)
{
  static const BwQuantity quantities[] = { [BW_THING_LENGTH] = BW_QUANTITY_LENGTH,
                                           [BW_THING_SPOOL] = BW_QUANTITY_NUMBER,
                                           [BW_THING_GRAMS] = BW_QUANTITY_GRAMS,
                                           [BW_THING_NUMBER] = BW_QUANTITY_NUMBER,
                                           [BW_THING_COUNT] = BW_QUANTITY_COUNT };
  BwField number = { .quantity = quantities[field->sort] };
  g_strlcpy (number.pointer, field->pointer, sizeof number.pointer);
  return number;
}

static gboolean
is_number (const BwThingField *field)
{
  return field->sort >= BW_THING_LENGTH && field->sort <= BW_THING_COUNT;
}

/* --- Made and filled ---------------------------------------------------------------------------
 */

/* The unit stands behind a number; of what comes off a spool it is told by the hint. */
static char *
number_words (const BwThingField *field, gconstpointer thing)
{
  double value = *(const double *)place_of (field, thing) / scale_of (field);
  BwField number = number_field (field);
  if (!(value > 0))
    return g_strdup ("");
  g_autofree char *words = bw_field_format (&number, value, unit ());
  if (field->sort != BW_THING_SPOOL)
    return g_steal_pointer (&words);
  return g_strdup_printf (unit () == BW_UNIT_INCH ? _ ("%s ft") : _ ("%s m"), words);
}

static GtkWidget *
new_entry (const BwThingField *field, const char *text)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  if (field->hint)
    gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _ (field->hint));
  if (field->sort == BW_THING_TEXT)
    gtk_entry_set_max_length (GTK_ENTRY (entry), (int)field->bytes - 1);
  return entry;
}

static GtkWidget *
new_choice (const BwThingField *field, gconstpointer thing)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  for (int i = 0; field->words (i); i++)
    gtk_string_list_append (words, field->words (i));
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&words)), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), *(const guint *)place_of (field, thing));
  return choice;
}

static GtkWidget *
new_flags (const BwThingField *field, gconstpointer thing)
{
  guint flags = *(const guint *)place_of (field, thing);
  GtkWidget *box = gtk_flow_box_new ();
  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (box), GTK_SELECTION_NONE);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (box), 4);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (box), 8);
  for (int i = 0; field->words (i); i++) {
    GtkWidget *check = gtk_check_button_new_with_label (field->words (i));
    gtk_check_button_set_active (GTK_CHECK_BUTTON (check), (flags & 1u << i) != 0);
    gtk_flow_box_append (GTK_FLOW_BOX (box), check);
    gtk_widget_set_focusable (gtk_widget_get_parent (check), FALSE);
  }
  return box;
}

/* All sizes to choose from, and the one it is of, should that be none of them. */
static GtkWidget *
new_bead (const BwThingField *field, gconstpointer thing)
{
  const char *own = place_of (field, thing);
  g_autoptr (GArray) sizes = bw_sizes_load (NULL);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = GTK_INVALID_LIST_POSITION;
  for (guint i = 0; i < sizes->len; i++) {
    const char *name = g_array_index (sizes, BwBead, i).name;
    gtk_string_list_append (names, name);
    if (g_str_equal (name, own))
      selected = i;
  }
  if (selected == GTK_INVALID_LIST_POSITION && *own) {
    selected = sizes->len;
    gtk_string_list_append (names, own);
  }
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  bw_long_list_fill (GTK_DROP_DOWN (choice), names);
  if (selected != GTK_INVALID_LIST_POSITION)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), selected);
  return choice;
}

/* Kept at the button itself as 1 more than the colour; 0: none. */
static void
put_colour (GtkWidget *button, gboolean there, guint32 srgb)
{
  g_autofree char *text = g_strdup_printf ("#%06x", srgb);
  g_object_set_data (G_OBJECT (button), "colour", GUINT_TO_POINTER (there ? srgb + 1 : 0));
  gtk_button_set_label (GTK_BUTTON (button), there ? text : _ ("Choose…"));
}

static void
colour_chosen (guint32 srgb, gpointer button)
{
  put_colour (button, TRUE, srgb);
}

static void
colour_clicked (GtkWidget *button)
{
  guint kept = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "colour"));
  bw_colour_dialog_ask (GTK_WINDOW (gtk_widget_get_root (button)), _ ("Bead colour"),
                        kept ? kept - 1 : bw_tint_srgb (BW_TINT_TIDE, FALSE), colour_chosen,
                        g_object_ref (button), g_object_unref);
}

static GtkWidget *
new_colour (const BwThingField *field, gconstpointer thing)
{
  GtkWidget *button = gtk_button_new ();
  put_colour (button, *(const gboolean *)(const void *)((const char *)thing + field->flag),
              *(const guint32 *)place_of (field, thing));
  g_signal_connect (button, "clicked", G_CALLBACK (colour_clicked), NULL);
  return button;
}

GtkWidget *
bw_thing_field_new (const BwThingField *field, gconstpointer thing)
{
  switch (field->sort) {
  case BW_THING_TEXT:
    return new_entry (field, place_of (field, thing));
  case BW_THING_CHOICE:
    return new_choice (field, thing);
  case BW_THING_FLAGS:
    return new_flags (field, thing);
  case BW_THING_BEAD:
    return new_bead (field, thing);
  case BW_THING_COLOUR:
    return new_colour (field, thing);
  case BW_THING_LENGTH:
  case BW_THING_SPOOL:
  case BW_THING_GRAMS:
  case BW_THING_NUMBER:
  case BW_THING_COUNT:
  default: {
    g_autofree char *words = number_words (field, thing);
    return new_entry (field, words);
  }
  }
}

/* --- Followed and read -------------------------------------------------------------------------
 */

static void
follow_flags (GtkWidget *box, GCallback changed, gpointer data)
{
  GtkFlowBoxChild *child;
  for (int i = 0; (child = gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (box), i)); i++)
    g_signal_connect_object (gtk_flow_box_child_get_child (child), "toggled", changed, data,
                             G_CONNECT_SWAPPED);
}

void
bw_thing_field_follow (const BwThingField *field, GtkWidget *control, GCallback changed,
                       gpointer data)
{
  const char *signal = "changed";
  if (field->sort == BW_THING_FLAGS) {
    follow_flags (control, changed, data);
    return;
  }
  if (field->sort == BW_THING_CHOICE || field->sort == BW_THING_BEAD)
    signal = "notify::selected";
  else if (field->sort == BW_THING_COLOUR)
    signal = "notify::label";
  g_signal_connect_object (control, signal, changed, data, G_CONNECT_SWAPPED);
}

static gboolean
read_number (const BwThingField *field, GtkWidget *entry, double *value, GError **error)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry)));
  BwField number = number_field (field);
  *value = 0;
  g_strstrip (text);
  if (field->sort == BW_THING_SPOOL
      && (g_str_has_suffix (text, "m") || g_str_has_suffix (text, "ft")))
    *strrchr (text, g_str_has_suffix (text, "m") ? 'm' : 'f') = '\0';
  if (!*text)
    return TRUE;
  if (!bw_field_parse (&number, text, unit (), value, error))
    return FALSE;
  *value *= scale_of (field);
  return TRUE;
}

static guint
read_flags (GtkWidget *box)
{
  GtkFlowBoxChild *child;
  guint flags = 0;
  for (int i = 0; (child = gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (box), i)); i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (gtk_flow_box_child_get_child (child))))
      flags |= 1u << i;
  return flags;
}

static void
read_bead (const BwThingField *field, GtkWidget *choice, gpointer thing)
{
  GtkStringObject *item = gtk_drop_down_get_selected_item (GTK_DROP_DOWN (choice));
  bw_copy_text (place_of (field, thing), field->bytes,
                item ? gtk_string_object_get_string (item) : "");
}

static void
read_colour (const BwThingField *field, GtkWidget *button, gpointer thing)
{
  guint kept = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "colour"));
  *(gboolean *)(void *)((char *)thing + field->flag) = kept > 0;
  *(guint32 *)place_of (field, thing) = kept ? kept - 1 : 0;
}

/* What a text's buffer holds behind its end counts when things are compared. */
static void
read_text (const BwThingField *field, GtkWidget *entry, gpointer thing)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry)));
  memset (place_of (field, thing), 0, field->bytes);
  bw_copy_text (place_of (field, thing), field->bytes, g_strstrip (text));
}

gboolean
bw_thing_field_read (const BwThingField *field, GtkWidget *control, gpointer thing, GError **error)
{
  if (is_number (field))
    return read_number (field, control, place_of (field, thing), error);
  if (field->sort == BW_THING_TEXT)
    read_text (field, control, thing);
  else if (field->sort == BW_THING_CHOICE)
    *(guint *)place_of (field, thing) = gtk_drop_down_get_selected (GTK_DROP_DOWN (control));
  else if (field->sort == BW_THING_FLAGS)
    *(guint *)place_of (field, thing) = read_flags (control);
  else if (field->sort == BW_THING_BEAD)
    read_bead (field, control, thing);
  else
    read_colour (field, control, thing);
  return TRUE;
}

/* --- Several -----------------------------------------------------------------------------------
 */

gboolean
bw_thing_fields_typed (const BwThings *things, GtkWidget *const *controls)
{
  for (guint i = 0; i < things->n_fields; i++)
    if (GTK_IS_ENTRY (controls[i]) && *gtk_editable_get_text (GTK_EDITABLE (controls[i])))
      return TRUE;
  return FALSE;
}
