/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row shows; what can be done with a colour is the panel's. */
#include "config.h"

#include "app/kit/bead-swatch.h"
#include "app/kit/tip.h"
#include "app/kit/tray-row.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>

struct _BwTrayRow {
  GtkListBoxRow parent_instance;
  BwBeadSwatch *bead;
  GtkLabel *name;
};

G_DEFINE_FINAL_TYPE (BwTrayRow, bw_tray_row, GTK_TYPE_LIST_BOX_ROW)

const char *
bw_finish_words (BwFinish finish)
{
  static const char *const words[BW_N_FINISHES]
      = { N_ ("opaque"), N_ ("matte"), N_ ("clear"),   N_ ("frosted"),    N_ ("lined"),
          N_ ("lustre"), N_ ("metal"), N_ ("rainbow"), N_ ("galvanised"), N_ ("silver-lined") };
  return _ (words[finish]);
}

char *
bw_colour_words (const BwColour *colour)
{
  char letter[8] = { 0 };
  if (*colour->name)
    return g_strdup (colour->name);
  g_unichar_to_utf8 (colour->id, letter);
  return g_strdup_printf (_ ("colour %s"), letter);
}

void
bw_tray_row_show (BwTrayRow *self, const BwColour *colour, guint64 count)
{
  g_return_if_fail (BW_IS_TRAY_ROW (self));
  char letter[8] = { 0 };
  g_autofree char *name = bw_colour_words (colour);
  g_unichar_to_utf8 (colour->id, letter);
  g_autofree char *words = g_strdup_printf (_ ("%s, letter %s, %s, %d beads"), name, letter,
                                            bw_finish_words (colour->finish), (int)count);
  bw_bead_swatch_set_colour (self->bead, colour);
  bw_label_set_words (self->name, name);
  bw_tip_set (GTK_WIDGET (self), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

void
bw_tray_row_set_folded (BwTrayRow *self, gboolean folded)
{
  g_return_if_fail (BW_IS_TRAY_ROW (self));
  gtk_widget_set_visible (GTK_WIDGET (self->name), !folded);
}

static void
bw_tray_row_class_init (BwTrayRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/tray-row.ui");
  gtk_widget_class_bind_template_child (widget_class, BwTrayRow, bead);
  gtk_widget_class_bind_template_child (widget_class, BwTrayRow, name);
}

static void
bw_tray_row_init (BwTrayRow *self)
{
  g_type_ensure (BW_TYPE_BEAD_SWATCH);
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
bw_tray_row_new (void)
{
  return g_object_new (BW_TYPE_TRAY_ROW, NULL);
}
