/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every way is worked out whenever a number changes, so that what is chosen between is seen, on the
 * rows it would have. */
#include "config.h"

#include "app/form/field.h"
#include "app/kit/part-names.h"
#include "project/piece-name.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "app/shelf/band-thumb.h"
#include "app/shelf/restone-dialog.h"
#include "app/shelf/told-stone.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

struct _BwRestoneDialog {
  GtkWindow parent_instance;
  BwProject *project;
  BwProject *made[BW_N_ANEW]; /* NULL: on its own stone, or it cannot be */
  gboolean own;               /* its own stone */
  BwRestoned restoned;
  GWeakRef owner;
  GtkWidget *stone_part, *hand_part, *begin;
  GtkLabel *intro, *result;
  GtkSpinButton *faces;
  GtkEntry *girth, *at, *length, *shoulder;
  GtkCheckButton *way[BW_N_ANEW];
  BwBandThumb *thumb[BW_N_ANEW];
};

G_DEFINE_FINAL_TYPE (BwRestoneDialog, bw_restone_dialog, GTK_TYPE_WINDOW)

/* --- What is typed -----------------------------------------------------------------------------
 */

/* An empty entry is 0: to be measured. */
static gboolean
read_length (GtkEntry *entry, const char *pointer, double *mm, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  BwField field = { .quantity = BW_QUANTITY_LENGTH };
  *mm = 0;
  if (!*stripped)
    return TRUE;
  g_strlcpy (field.pointer, pointer, sizeof field.pointer);
  return bw_field_parse (&field, text, bw_settings_get_unit (bw_settings_get ()), mm, error);
}

static const struct {
  gsize entry;
  gsize told;
  const char *pointer;
} lengths[] = {
  { offsetof (BwRestoneDialog, girth), offsetof (BwToldStone, girth_mm), "/stone/values_mm/0" },
  { offsetof (BwRestoneDialog, at), offsetof (BwToldStone, at_mm), "/stone/at_mm" },
  { offsetof (BwRestoneDialog, length), offsetof (BwToldStone, length_mm), "/stone/length_mm" },
  { offsetof (BwRestoneDialog, shoulder), offsetof (BwToldStone, shoulder_mm),
    "/stone/shoulder_mm" },
};

static GtkEntry *
entry_of (BwRestoneDialog *self, gsize i)
{
  return *(GtkEntry **)(void *)((char *)self + lengths[i].entry);
}

static gboolean
read_told (BwRestoneDialog *self, BwToldStone *told, GError **error)
{
  told->faces = gtk_spin_button_get_value_as_int (self->faces);
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    if (!read_length (entry_of (self, i), lengths[i].pointer,
                      (double *)(void *)((char *)told + lengths[i].told), error))
      return FALSE;
  return TRUE;
}

static void
mark (BwRestoneDialog *self, const GError *error)
{
  g_autofree char *blamed = error ? bw_fault_dup_pointer (error) : NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++) {
    GtkWidget *entry = GTK_WIDGET (entry_of (self, i));
    if (g_strcmp0 (blamed, lengths[i].pointer) == 0)
      gtk_widget_add_css_class (entry, "error");
    else
      gtk_widget_remove_css_class (entry, "error");
  }
}

/* --- What becomes of it ------------------------------------------------------------------------
 */

static void
drop_made (BwRestoneDialog *self)
{
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++)
    g_clear_object (&self->made[way]);
}

static gboolean
make_all (BwRestoneDialog *self, int *left_out, GError **error)
{
  BwToldStone told = { 0 };
  BwStoneMeasures measures;
  BwExamples examples;
  if (!read_told (self, &told, error))
    return FALSE;
  bw_told_stone_fill (&told, self->project, &measures, &examples);
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++) {
    self->made[way]
        = bw_project_restone (self->project, &measures, &examples, way, left_out, error);
    if (!self->made[way])
      return FALSE;
  }
  return TRUE;
}

static void
show_thumbs (BwRestoneDialog *self)
{
  const BwTray *tray = bw_project_get_tray (self->project);
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++) {
    g_autoptr (BwDrawing) own = self->own ? bw_project_draw_anew (self->project, way) : NULL;
    const BwDrawing *made = self->made[way] ? bw_project_get_drawing (self->made[way]) : NULL;
    bw_band_thumb_set (self->thumb[way], self->own ? own : made, tray);
  }
}

/* "98 rows · 2 motifs laid anew · 31 beads set by hand". Owned. */
static char *
result_words (BwRestoneDialog *self, int left_out)
{
  const BwDrawing *drawing = bw_band_thumb_get (self->thumb[0]);
  int n;
  const BwMade *made = bw_project_get_motifs (self->project, &n);
  int by_hand = bw_anew_by_hand (bw_project_get_drawing (self->project), made, n);
  int rows = bw_drawing_rows (drawing);
  g_autofree char *row_words = g_strdup_printf (ngettext ("%d row", "%d rows", (gulong)rows), rows);
  g_autofree char *motif_words = g_strdup_printf (
      ngettext ("%d motif laid anew", "%d motifs laid anew", (gulong)(n - left_out)), n - left_out);
  g_autofree char *hand_words = g_strdup_printf (
      ngettext ("%d bead set by hand", "%d beads set by hand", (gulong)by_hand), by_hand);
  g_autofree char *lost = g_strdup_printf (
      ngettext ("%d motif does not fit there; its beads count as set by hand",
                "%d motifs do not fit there; their beads count as set by hand", (gulong)left_out),
      left_out);
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  g_ptr_array_add (words, row_words);
  if (n > left_out)
    g_ptr_array_add (words, motif_words);
  g_ptr_array_add (words, hand_words);
  if (left_out > 0)
    g_ptr_array_add (words, lost);
  g_ptr_array_add (words, NULL);
  return g_strjoinv (" · ", (char **)words->pdata);
}

static void
refresh (BwRestoneDialog *self)
{
  g_autoptr (GError) error = NULL;
  int left_out = 0;
  if (!self->project)
    return;
  drop_made (self);
  gboolean stands = self->own || make_all (self, &left_out, &error);
  show_thumbs (self);
  mark (self, error);
  gtk_widget_set_sensitive (self->begin, stands);
  gtk_widget_set_visible (self->hand_part, stands);
  if (stands) {
    g_autofree char *words = result_words (self, left_out);
    bw_label_set_words (self->result, words);
    gtk_widget_remove_css_class (GTK_WIDGET (self->result), "reason");
  } else {
    bw_label_set_words (self->result, bw_fault_sentence (error));
    gtk_widget_add_css_class (GTK_WIDGET (self->result), "reason");
  }
}

static BwAnewWay
chosen_way (BwRestoneDialog *self)
{
  BwAnewWay way = 0;
  while (way + 1 < BW_N_ANEW && !gtk_check_button_get_active (self->way[way]))
    way++;
  return way;
}

static void
begin_clicked (BwRestoneDialog *self)
{
  g_autoptr (GObject) owner = g_weak_ref_get (&self->owner);
  BwAnewWay way = chosen_way (self);
  if (self->own)
    bw_project_lay_anew (self->project, _ ("Design laid anew"), way, NULL, NULL);
  else if (owner && self->made[way])
    self->restoned (self->made[way], owner);
  gtk_window_destroy (GTK_WINDOW (self));
}

/* --- The dialog --------------------------------------------------------------------------------
 */

static BwRestoneDialog *
dialog_new (GtkWindow *parent, BwProject *project, gboolean own)
{
  BwRestoneDialog *self = g_object_new (BW_TYPE_RESTONE_DIALOG, "transient-for", parent, NULL);
  self->project = g_object_ref (project);
  self->own = own;
  gtk_widget_set_visible (self->stone_part, !own);
  gtk_spin_button_set_value (self->faces, bw_project_get_design (project)->stone.faces);
  return self;
}

static void
present (BwRestoneDialog *self)
{
  refresh (self);
  bw_part_names_give (GTK_WIDGET (self));
  gtk_window_present (GTK_WINDOW (self));
}

void
bw_restone_dialog_show (GtkWindow *parent, BwProject *project, BwRestoned restoned, GObject *owner)
{
  g_return_if_fail (BW_IS_PROJECT (project) && restoned);
  BwRestoneDialog *self = dialog_new (parent, project, FALSE);
  g_autofree char *full = bw_piece_name (project);
  g_autofree char *intro = g_strdup_printf (
      _ ("Bead, colours, motifs, bail and your habits come from “%s”. Tell what you know of the "
         "new stone; what you leave empty is measured next."),
      full);
  self->restoned = restoned;
  g_weak_ref_set (&self->owner, owner);
  bw_label_set_words (self->intro, intro);
  present (self);
}

void
bw_restone_dialog_show_anew (GtkWindow *parent, BwProject *project)
{
  g_return_if_fail (BW_IS_PROJECT (project));
  BwRestoneDialog *self = dialog_new (parent, project, TRUE);
  gtk_window_set_title (GTK_WINDOW (self), _ ("Lay the Design Anew"));
  gtk_button_set_label (GTK_BUTTON (self->begin), _ ("_Lay on the Band"));
  bw_label_set_words (self->intro,
                      _ ("The drawing for the rows recommended now: motifs are made again, and "
                         "what was set by hand follows as you choose."));
  present (self);
}

static void
bw_restone_dialog_finalize (GObject *object)
{
  BwRestoneDialog *self = BW_RESTONE_DIALOG (object);
  drop_made (self);
  g_clear_object (&self->project);
  g_weak_ref_clear (&self->owner);
  G_OBJECT_CLASS (bw_restone_dialog_parent_class)->finalize (object);
}

static void
bind_ways (GtkWidgetClass *widget_class)
{
  static const char *const names[2][BW_N_ANEW]
      = { { "repeat", "stretch", "ground" }, { "repeated", "stretched", "grounded" } };
  for (BwAnewWay way = 0; way < BW_N_ANEW; way++) {
    gssize step = (gssize)(way * sizeof (gpointer));
    gtk_widget_class_bind_template_child_full (widget_class, names[0][way], FALSE,
                                               G_STRUCT_OFFSET (BwRestoneDialog, way) + step);
    gtk_widget_class_bind_template_child_full (widget_class, names[1][way], FALSE,
                                               G_STRUCT_OFFSET (BwRestoneDialog, thumb) + step);
  }
}

static void
bw_restone_dialog_class_init (BwRestoneDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_restone_dialog_finalize;
  g_type_ensure (BW_TYPE_BAND_THUMB);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/bandwright/Bandwright/restone-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, stone_part);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, hand_part);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, begin);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, intro);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, result);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, faces);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, girth);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, at);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, length);
  gtk_widget_class_bind_template_child (widget_class, BwRestoneDialog, shoulder);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
  gtk_widget_class_bind_template_callback (widget_class, begin_clicked);
  bind_ways (widget_class);
}

static void
bw_restone_dialog_init (BwRestoneDialog *self)
{
  g_weak_ref_init (&self->owner, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}
