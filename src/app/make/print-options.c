/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wishes and parts are the settings': they hold from print to print and from piece to piece. The
 * paper begins with the settings' and is this window's own: who prints one booklet does not want
 * everything small from then on. How many pieces there are is the project's. */
#include "config.h"

#include "app/make/print-options.h"

#include "app/ask/file-dialog.h"
#include "app/kit/settings.h"
#include "app/make/print-run.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define OWN 4 /* place of the own size in the list of papers */

struct _BwPrintOptions {
  BwCard parent_instance;
  BwPrintKind kind;
  GtkBox *kinds;
  GtkWidget *kind_check[BW_N_PRINT_KINDS];
  GtkWidget *chart, *pieces, *paper_box, *own, *wishes, *parts;
  GtkWidget *large, *sparing, *costs;
  GtkWidget *part_check[BW_N_SHEET_PARTS];
  GtkDropDown *paper;
  GtkSpinButton *own_width, *own_height;
  GtkLabel *own_unit;
  char *word;       /* the paper chosen here; owned; NULL: the settings' */
  gboolean showing; /* controls change, not the maker's mind */
};

G_DEFINE_FINAL_TYPE (BwPrintOptions, bw_print_options, BW_TYPE_CARD)

enum { CHANGED, SAVE_CHART, N_SIGNALS };
static guint signals[N_SIGNALS];

static const char *const papers[] = { "usual", "a4", "a5", "letter" };

static const char *const part_names[BW_N_SHEET_PARTS] = { N_ ("What you need, thread"),
                                                          N_ ("Stone, bed, fit"),
                                                          N_ ("Swatch and row ruler"),
                                                          N_ ("Chart"),
                                                          N_ ("Row by row, drawings"),
                                                          N_ ("Tools and thread work"),
                                                          N_ ("Order list") };

static void
tell_changed (BwPrintOptions *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

/* --- What --------------------------------------------------------------------------------------
 */

/* Only what does something is there. */
static void
show_what_matters (BwPrintOptions *self)
{
  guint heeds = bw_print_kind_heeds (self->kind);
  gboolean sheet = self->kind == BW_PRINT_SHEET;
  gtk_widget_set_visible (self->large, (heeds & BW_PRINT_LARGE) != 0);
  gtk_widget_set_visible (self->sparing, (heeds & BW_PRINT_SPARING) != 0);
  gtk_widget_set_visible (self->costs, (heeds & BW_PRINT_COSTS) != 0);
  gtk_widget_set_visible (self->wishes, heeds != 0);
  gtk_widget_set_visible (self->parts, sheet);
  gtk_widget_set_visible (self->chart, self->kind == BW_PRINT_CHART);
  gtk_widget_set_visible (self->paper_box, bw_print_kind_has_paper (self->kind));
  gtk_widget_set_visible (self->pieces, self->kind == BW_PRINT_KIT || self->kind == BW_PRINT_ORDER);
  gtk_check_button_set_label (GTK_CHECK_BUTTON (self->costs), self->kind == BW_PRINT_TAGS
                                                                  ? _ ("With the _price")
                                                                  : _ ("Prices and _wages"));
}

BwPrintKind
bw_print_options_get_kind (BwPrintOptions *self)
{
  g_return_val_if_fail (BW_IS_PRINT_OPTIONS (self), BW_PRINT_SHEET);
  return self->kind;
}

void
bw_print_options_set_kind (BwPrintOptions *self, BwPrintKind kind)
{
  g_return_if_fail (BW_IS_PRINT_OPTIONS (self));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->kind_check[kind]), TRUE);
}

void
bw_print_options_focus (BwPrintOptions *self)
{
  g_return_if_fail (BW_IS_PRINT_OPTIONS (self));
  gtk_widget_grab_focus (self->kind_check[self->kind]);
}

static void
kind_toggled (BwPrintOptions *self, GtkCheckButton *check)
{
  BwPrintKind kind = (BwPrintKind)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (check), "kind"));
  if (!gtk_check_button_get_active (check) || kind == self->kind)
    return;
  self->kind = kind;
  show_what_matters (self);
  tell_changed (self);
}

static void
add_kind (BwPrintOptions *self, BwPrintKind kind)
{
  GtkWidget *check = gtk_check_button_new_with_label (bw_print_kind_name (kind));
  gtk_widget_set_tooltip_text (check, bw_print_kind_use (kind));
  g_object_set_data (G_OBJECT (check), "kind", GINT_TO_POINTER (kind));
  if (kind > 0)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (check), GTK_CHECK_BUTTON (self->kind_check[0]));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), kind == self->kind);
  g_signal_connect_swapped (check, "toggled", G_CALLBACK (kind_toggled), self);
  gtk_box_append (self->kinds, check);
  self->kind_check[kind] = check;
}

static void
svg_clicked (BwPrintOptions *self)
{
  g_signal_emit (self, signals[SAVE_CHART], 0, BW_FILES_SVG);
}

static void
png_clicked (BwPrintOptions *self)
{
  g_signal_emit (self, signals[SAVE_CHART], 0, BW_FILES_PICTURE);
}

/* --- Paper -------------------------------------------------------------------------------------
 */

/* How long the shown unit is. */
static double
unit_mm (void)
{
  return bw_settings_get_unit (bw_settings_get ()) == BW_UNIT_INCH ? BW_MM_PER_INCH : 1;
}

static void
show_side (GtkSpinButton *side, double points)
{
  double unit = unit_mm ();
  gboolean inches = unit > 1;
  gtk_spin_button_set_digits (side, inches ? 2 : 0);
  gtk_spin_button_set_increments (side, inches ? 0.25 : 1, inches ? 1 : 10);
  gtk_spin_button_set_range (side, ceil (BW_PAPER_LEAST_MM / unit * 100 - 1e-6) / 100,
                             floor (BW_PAPER_MOST_MM / unit * 100 + 1e-6) / 100);
  gtk_spin_button_set_value (side, points / BW_POINTS_PER_MM / unit);
}

BwPaper
bw_print_options_get_paper (BwPrintOptions *self)
{
  return self->word ? bw_print_paper_named (self->word) : bw_print_paper ();
}

static void
show_paper (BwPrintOptions *self)
{
  g_autofree char *word = g_strdup (self->word);
  BwPaper paper = bw_print_options_get_paper (self);
  guint selected = 0;
  if (!word)
    g_object_get (bw_settings_get (), "paper", &word, NULL);
  while (selected < G_N_ELEMENTS (papers) && g_strcmp0 (papers[selected], word) != 0)
    selected++;
  self->showing = TRUE;
  gtk_drop_down_set_selected (self->paper, selected);
  gtk_widget_set_visible (self->own, selected == OWN);
  show_side (self->own_width, paper.width);
  show_side (self->own_height, paper.height);
  gtk_label_set_text (self->own_unit, unit_mm () > 1 ? _ ("in") : _ ("mm"));
  self->showing = FALSE;
}

static void
paper_changed (BwPrintOptions *self)
{
  show_paper (self);
  tell_changed (self);
}

static void
take_paper (BwPrintOptions *self, const char *word)
{
  g_autofree char *taken = g_strdup (word);
  if (g_strcmp0 (taken, self->word) == 0)
    return;
  g_free (self->word);
  self->word = g_steal_pointer (&taken);
  paper_changed (self);
}

/* Tenths of a millimetre: as much as a ruler shows of a sheet of paper. */
static void
own_changed (BwPrintOptions *self)
{
  char width[G_ASCII_DTOSTR_BUF_SIZE], height[G_ASCII_DTOSTR_BUF_SIZE];
  if (self->showing)
    return;
  g_ascii_formatd (width, sizeof width, "%.1f",
                   gtk_spin_button_get_value (self->own_width) * unit_mm ());
  g_ascii_formatd (height, sizeof height, "%.1f",
                   gtk_spin_button_get_value (self->own_height) * unit_mm ());
  g_autofree char *word = g_strconcat (width, "x", height, NULL);
  take_paper (self, word);
}

static void
paper_chosen (BwPrintOptions *self)
{
  guint selected = gtk_drop_down_get_selected (self->paper);
  if (self->showing)
    return;
  if (selected < OWN)
    take_paper (self, papers[selected]);
  else
    own_changed (self);
}

/* --- Wishes and parts --------------------------------------------------------------------------
 */

static void
bind_wish (BwPrintOptions *self, GtkWidget *check, const char *name)
{
  g_autofree char *changed = g_strconcat ("notify::", name, NULL);
  g_object_bind_property (bw_settings_get (), name, check, "active",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  g_signal_connect_object (bw_settings_get (), changed, G_CALLBACK (tell_changed), self,
                           G_CONNECT_SWAPPED);
}

static void
part_toggled (BwPrintOptions *self)
{
  int left_out = 0;
  if (self->showing)
    return;
  for (int part = 0; part < BW_N_SHEET_PARTS; part++)
    if (!gtk_check_button_get_active (GTK_CHECK_BUTTON (self->part_check[part])))
      left_out |= (int)BW_PRINT_WITHOUT (part);
  g_object_set (bw_settings_get (), "print-left-out", left_out, NULL);
}

static void
show_parts (BwPrintOptions *self)
{
  guint wishes = bw_print_paper ().wishes;
  self->showing = TRUE;
  for (int part = 0; part < BW_N_SHEET_PARTS; part++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->part_check[part]),
                                 !(wishes & BW_PRINT_WITHOUT (part)));
  self->showing = FALSE;
}

static void
parts_changed (BwPrintOptions *self)
{
  show_parts (self);
  tell_changed (self);
}

static void
add_part (BwPrintOptions *self, int part)
{
  GtkWidget *check = gtk_check_button_new_with_label (_ (part_names[part]));
  g_signal_connect_swapped (check, "toggled", G_CALLBACK (part_toggled), self);
  gtk_box_append (GTK_BOX (self->parts), check);
  self->part_check[part] = check;
}

/* --- The card ----------------------------------------------------------------------------------
 */

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, kinds);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, chart);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, pieces);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, paper_box);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, own);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, wishes);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, parts);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, large);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, sparing);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, costs);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, paper);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, own_width);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, own_height);
  gtk_widget_class_bind_template_child (widget_class, BwPrintOptions, own_unit);
}

static void
bw_print_options_finalize (GObject *object)
{
  g_free (BW_PRINT_OPTIONS (object)->word);
  G_OBJECT_CLASS (bw_print_options_parent_class)->finalize (object);
}

static void
bw_print_options_class_init (BwPrintOptionsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bw_print_options_finalize;
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  signals[CHANGED] = g_signal_new ("changed", BW_TYPE_PRINT_OPTIONS, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  signals[SAVE_CHART] = g_signal_new ("save-chart", BW_TYPE_PRINT_OPTIONS, G_SIGNAL_RUN_LAST, 0,
                                      NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/print-options.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, svg_clicked);
  gtk_widget_class_bind_template_callback (widget_class, png_clicked);
  gtk_widget_class_bind_template_callback (widget_class, paper_chosen);
  gtk_widget_class_bind_template_callback (widget_class, own_changed);
}

static void
follow (BwPrintOptions *self, const char *setting, void (*show) (BwPrintOptions *self))
{
  g_autofree char *changed = g_strconcat ("notify::", setting, NULL);
  g_signal_connect_object (bw_settings_get (), changed, G_CALLBACK (show), self, G_CONNECT_SWAPPED);
}

static void
bw_print_options_init (BwPrintOptions *self)
{
  self->showing = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  for (BwPrintKind kind = 0; kind < BW_N_PRINT_KINDS; kind++)
    add_kind (self, kind);
  for (int part = 0; part < BW_N_SHEET_PARTS; part++)
    add_part (self, part);
  show_paper (self);
  show_parts (self);
  show_what_matters (self);
  bind_wish (self, self->large, "print-large");
  bind_wish (self, self->sparing, "print-sparing");
  bind_wish (self, self->costs, "print-costs");
  follow (self, "paper", paper_changed);
  follow (self, "units", paper_changed);
  follow (self, "print-left-out", parts_changed);
}
