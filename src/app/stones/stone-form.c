/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice keeps the stone and changes what is asked of it: the numbers are read off the stone as
 * it was typed. Where that is none yet, the choice goes back to what it was, and what is typed
 * stays. */
#include "config.h"

#include "app/stones/stone-form.h"

#include "app/form/field.h"
#include "app/form/measures.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "project/fault/fault-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _BwStoneForm {
  GtkWidget parent_instance;
  BwDesign design; /* whose stone is shown */
  GtkWidget *box;
  GtkSpinButton *faces;
  GtkDropDown *way, *taper, *point, *base;
  GtkGrid *choices, *numbers;
  GtkLabel *why;      /* a choice was not taken; hidden when none was refused */
  GPtrArray *entries; /* of GtkEntry, each with its BwField */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (BwStoneForm, bw_stone_form, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static BwUnit
unit (void)
{
  return bw_settings_get_unit (bw_settings_get ());
}

/* --- The numbers -------------------------------------------------------------------------------
 */

static gboolean
read_numbers (BwStoneForm *self, BwDesign *design, GError **error)
{
  BwFault fault;
  for (guint i = 0; i < self->entries->len; i++) {
    GtkEditable *entry = g_ptr_array_index (self->entries, i);
    const BwField *field = g_object_get_data (G_OBJECT (entry), "field");
    g_autofree char *shown = bw_field_format (field, bw_field_get (field, design), unit ());
    double value;
    if (g_str_equal (shown, gtk_editable_get_text (entry)))
      continue; /* as it was, to its last digit */
    if (!bw_field_parse (field, gtk_editable_get_text (entry), unit (), &value, error))
      return FALSE;
    bw_field_set (field, design, value);
  }
  return bw_stone_measures_validate (&design->stone, &fault) || bw_fault_tell (&fault, error);
}

static void
tell_changed (BwStoneForm *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
attach (GtkGrid *grid, int row, const char *name, GtkWidget *control)
{
  GtkWidget *label = gtk_label_new (name);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (control, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  gtk_grid_attach (grid, label, 0, row, 1, 1);
  gtk_grid_attach (grid, control, 1, row, 1, 1);
}

/* name NULL: the field's own. */
static void
add_field (BwStoneForm *self, const char *pointer, const char *name)
{
  BwField field;
  if (!bw_field_find (&field, pointer) || !bw_field_is_there (&field, &self->design))
    return;
  GtkWidget *entry = gtk_entry_new ();
  g_autofree char *text = bw_field_format (&field, bw_field_get (&field, &self->design), unit ());
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  g_object_set_data_full (G_OBJECT (entry), "field", g_memdup2 (&field, sizeof field), g_free);
  g_signal_connect_object (entry, "changed", G_CALLBACK (tell_changed), self, G_CONNECT_SWAPPED);
  attach (self->numbers, (int)self->entries->len, name ? name : _ (field.label), entry);
  g_ptr_array_add (self->entries, entry);
}

static void
add_values (BwStoneForm *self)
{
  const BwStoneMeasures *stone = &self->design.stone;
  for (int i = 0; i < bw_stone_value_count (stone->measured, stone->faces); i++) {
    g_autofree char *pointer = g_strdup_printf ("/stone/values_mm/%d", i);
    g_autofree char *name = bw_value_title (stone, i);
    add_field (self, pointer, name);
  }
}

static void
add_numbers (BwStoneForm *self)
{
  static const char *const body[] = { "/stone/at_mm",
                                      "/stone/second_girth_mm",
                                      "/stone/second_at_mm",
                                      "/stone/length_mm",
                                      "/stone/shoulder_mm",
                                      "/stone/natural_angle_deg",
                                      "/stone/apex_offset_mm/0",
                                      "/stone/apex_offset_mm/1" };
  static const char *const lower[] = { "/stone/base_shoulder_mm", "/stone/base_apex_offset_mm/0",
                                       "/stone/base_apex_offset_mm/1" };
  add_values (self);
  for (gsize i = 0; i < G_N_ELEMENTS (body); i++)
    add_field (self, body[i], NULL);
  for (gsize i = 0; self->design.stone.base == BW_BASE_POINT && i < G_N_ELEMENTS (lower); i++)
    add_field (self, lower[i], NULL);
  add_field (self, "/stone/girth_sd_mm", NULL);
  add_field (self, "/stone/density_g_cm3", NULL);
}

static void
show_choices (BwStoneForm *self)
{
  const BwStoneMeasures *stone = &self->design.stone;
  self->filling = TRUE;
  gtk_spin_button_set_value (self->faces, stone->faces);
  gtk_drop_down_set_selected (self->way, stone->measured);
  gtk_drop_down_set_selected (self->taper, stone->has_second ? 1 : 0);
  gtk_drop_down_set_selected (self->point, stone->has_shoulder ? 0 : 1);
  gtk_drop_down_set_selected (self->base, stone->base == BW_BASE_POINT ? 1 : 0);
  self->filling = FALSE;
}

static void
show (BwStoneForm *self)
{
  GtkWidget *child;
  show_choices (self);
  self->filling = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->numbers))))
    gtk_grid_remove (self->numbers, child);
  g_ptr_array_set_size (self->entries, 0);
  add_numbers (self);
  bw_part_names_give (GTK_WIDGET (self->numbers));
  self->filling = FALSE;
}

/* --- The choices -------------------------------------------------------------------------------
 */

static void
choose (BwStoneForm *self, BwStoneMeasures *stone)
{
  int faces = gtk_spin_button_get_value_as_int (self->faces);
  BwMeasured way = (BwMeasured)gtk_drop_down_get_selected (self->way);
  gboolean tapers = gtk_drop_down_get_selected (self->taper) == 1;
  gboolean by_angle = gtk_drop_down_get_selected (self->point) == 1;
  BwBase base = gtk_drop_down_get_selected (self->base) == 1 ? BW_BASE_POINT : BW_BASE_FLAT;
  if (faces != stone->faces)
    bw_measures_set_faces (stone, faces);
  else if (way != stone->measured)
    bw_measures_set_way (stone, way);
  else if (tapers != stone->has_second)
    bw_measures_set_taper (stone, tapers);
  else if (by_angle != !stone->has_shoulder)
    bw_measures_set_point (stone, by_angle);
  else if (base != stone->base)
    bw_measures_set_base (stone, base);
}

/* A choice goes back, or takes another along, where flats are asked of an odd number of faces. It
 * is told until something else is chosen; a choice that goes back is none. */
static void
show_why (BwStoneForm *self, gboolean no_flats, gboolean other)
{
  if (no_flats || other)
    gtk_widget_set_visible (GTK_WIDGET (self->why), no_flats);
}

static void
chosen (BwStoneForm *self)
{
  BwDesign typed = self->design;
  if (self->filling)
    return;
  gboolean odd = gtk_spin_button_get_value_as_int (self->faces) % 2;
  guint way = gtk_drop_down_get_selected (self->way);
  if (read_numbers (self, &typed, NULL)) {
    BwStoneMeasures before = typed.stone;
    choose (self, &typed.stone);
    show_why (self, odd && way == BW_MEASURED_ACROSS_FLATS,
              memcmp (&before, &typed.stone, sizeof before) != 0);
    self->design = typed;
    show (self);
  } else {
    show_choices (self);
  }
  tell_changed (self);
}

static GtkDropDown *
add_choice (BwStoneForm *self, int row, const char *name, const char *const *words)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  for (; *words; words++)
    gtk_string_list_append (list, _ (*words));
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (chosen), self,
                           G_CONNECT_SWAPPED);
  attach (self->choices, row, name, choice);
  return GTK_DROP_DOWN (choice);
}

static void
add_choices (BwStoneForm *self)
{
  static const char *const ways[]
      = { N_ ("across the flats"), N_ ("each face"), N_ ("girth"), NULL };
  static const char *const tapers[] = { N_ ("everywhere alike"), N_ ("by a second girth"), NULL };
  static const char *const points[] = { N_ ("its shoulder"), N_ ("its natural angle"), NULL };
  static const char *const bases[] = { N_ ("flat"), N_ ("a point"), NULL };
  GtkWidget *faces = gtk_spin_button_new_with_range (BW_FACES_MIN, BW_FACES_MAX, 1);
  self->faces = GTK_SPIN_BUTTON (faces);
  g_signal_connect_object (faces, "value-changed", G_CALLBACK (chosen), self, G_CONNECT_SWAPPED);
  attach (self->choices, 0, _ ("Faces round the stone"), faces);
  self->way = add_choice (self, 1, _ ("Measured"), ways);
  self->taper = add_choice (self, 2, _ ("How it tapers"), tapers);
  self->point = add_choice (self, 3, _ ("Where the point begins"), points);
  self->base = add_choice (self, 4, _ ("Lower end"), bases);
}

/* --- The widget --------------------------------------------------------------------------------
 */

void
bw_stone_form_set (BwStoneForm *self, const BwStoneMeasures *measures)
{
  g_return_if_fail (BW_IS_STONE_FORM (self));
  self->design.stone = *measures;
  show (self);
}

gboolean
bw_stone_form_read (BwStoneForm *self, BwStoneMeasures *measures, GError **error)
{
  g_return_val_if_fail (BW_IS_STONE_FORM (self), FALSE);
  BwDesign design = self->design;
  if (!read_numbers (self, &design, error))
    return FALSE;
  *measures = design.stone;
  return TRUE;
}

static void
bw_stone_form_dispose (GObject *object)
{
  g_clear_pointer (&BW_STONE_FORM (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_stone_form_parent_class)->dispose (object);
}

static void
bw_stone_form_finalize (GObject *object)
{
  g_ptr_array_unref (BW_STONE_FORM (object)->entries);
  G_OBJECT_CLASS (bw_stone_form_parent_class)->finalize (object);
}

static void
bw_stone_form_class_init (BwStoneFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bw_stone_form_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_stone_form_finalize;
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_STONE_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static GtkGrid *
grid_new (GtkWidget *box)
{
  GtkWidget *grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_box_append (GTK_BOX (box), grid);
  return GTK_GRID (grid);
}

static void
bw_stone_form_init (BwStoneForm *self)
{
  self->entries = g_ptr_array_new ();
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  bw_design_defaults (&self->design);
  self->choices = grid_new (self->box);
  self->why = GTK_LABEL (
      gtk_label_new (_ ("An odd number of faces has no opposite faces to measure across.")));
  gtk_label_set_wrap (self->why, TRUE);
  gtk_label_set_xalign (self->why, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->why), "reason");
  gtk_widget_set_visible (GTK_WIDGET (self->why), FALSE);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->why));
  self->numbers = grid_new (self->box);
  self->filling = TRUE;
  add_choices (self);
  show (self);
}
