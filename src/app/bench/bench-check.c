/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is typed is judged before the dialog opens, and a fault is told beside the field. */
#include "config.h"

#include "app/bench/bench-check.h"
#include "app/bench/bench-words.h"
#include "app/bench/check-dialog.h"
#include "app/form/field.h"
#include "app/kit/description.h"
#include "app/kit/put-text.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "output/words/try-on-words.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

struct _BwBenchCheck {
  BwCard parent_instance;
  GtkEntry *length;
  GtkSpinButton *amount;
  GtkDropDown *sense;
  GtkDropDown *unit;
  GtkDropDown *how;
  GtkWidget *take;
  GtkLabel *due;
  GtkLabel *reason;
};

G_DEFINE_FINAL_TYPE (BwBenchCheck, bw_bench_check, BW_TYPE_CARD)

static void
show_reason (BwBenchCheck *self, const GError *error)
{
  bw_label_set_words (self->reason, error ? bw_fault_sentence (error) : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), error != NULL);
}

static GtkWindow *
window_of (BwBenchCheck *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static void
put_away (BwBenchCheck *self)
{
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_POPOVER);
  if (popover)
    gtk_popover_popdown (GTK_POPOVER (popover));
}

static void
length_typed (BwBenchCheck *self)
{
  BwField field = { .quantity = BW_QUANTITY_LENGTH, .pointer = "/progress/checks" };
  g_autoptr (GError) error = NULL;
  double length;
  if (bw_field_parse (&field, gtk_editable_get_text (GTK_EDITABLE (self->length)),
                      bw_settings_get_unit (bw_settings_get ()), &length, &error)
      && bw_check_dialog_show_length (window_of (self), bw_card_get_draft (BW_CARD (self)), length,
                                      &error)) {
    bw_put_text (GTK_EDITABLE (self->length), "");
    put_away (self);
  }
  show_reason (self, error);
}

/* In the order of the choices. */
enum { SHORT, OVER, MEETING };

/* How the ends lie must have been said: nothing entered is no answer, for ends that just meet would
 * be one. The value counts beside the text: while the entry writes a number anew it is empty for a
 * moment, and a button that rests then loses the click upon it. */
static gboolean
has_reading (BwBenchCheck *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->amount));
  return gtk_drop_down_get_selected (self->sense) == MEETING || g_strtod (text, NULL) > 0
         || gtk_spin_button_get_value (self->amount) > 0;
}

static void
show_entered (BwBenchCheck *self)
{
  gboolean meets = gtk_drop_down_get_selected (self->sense) == MEETING;
  BwProject *project = bw_card_get_project (BW_CARD (self));
  gtk_widget_set_sensitive (GTK_WIDGET (self->amount), !meets);
  gtk_widget_set_sensitive (self->take, project && bw_project_get_rows_done (project) >= 2
                                            && has_reading (self));
}

/* What the three choices and the number say. */
static BwReading
reading_of (BwBenchCheck *self)
{
  static const double sign[] = { [SHORT] = 1, [OVER] = -1, [MEETING] = 0 };
  const BwDesign *design = bw_project_get_design (bw_card_get_project (BW_CARD (self)));
  double value = gtk_spin_button_get_value (self->amount);
  double lacks = sign[gtk_drop_down_get_selected (self->sense)] * value;
  BwTriedHow how = gtk_drop_down_get_selected (self->how) == 0 ? BW_TRIED_SLACK : BW_TRIED_PULLED;
  if (gtk_drop_down_get_selected (self->unit) == 0)
    return bw_reading_beads (design, lacks, how);
  return (BwReading){ lacks, how, BW_TRIED_BY_CALLIPER };
}

static void
take_clicked (BwBenchCheck *self)
{
  g_autoptr (GError) error = NULL;
  gtk_spin_button_update (self->amount);
  if (!has_reading (self))
    return;
  BwReading reading = reading_of (self);
  if (bw_check_dialog_show_try_on (window_of (self), bw_card_get_draft (BW_CARD (self)), &reading,
                                   &error)) {
    gtk_spin_button_set_value (self->amount, 0);
    gtk_drop_down_set_selected (self->sense, SHORT);
    put_away (self);
  }
  show_reason (self, error);
}

static void
bw_bench_check_refresh (BwCard *card)
{
  BwBenchCheck *self = BW_BENCH_CHECK (card);
  BwProject *project = bw_card_get_project (card);
  int done = bw_project_get_rows_done (project), row = bw_project_forecast (project)->try_on_row;
  g_autofree char *due = g_strdup_printf (row > done ? _ ("The first try-on is due after row %d.")
                                                     : _ ("A try-on is due (from row %d)."),
                                          row);
  g_autofree char *words = g_strjoin (" ", due, bw_try_on_words_procedure (), NULL);
  bw_label_set_words (self->due, words);
  show_entered (self);
}

static void
bw_bench_check_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_bench_check_parent_class)->map (widget);
  show_reason (BW_BENCH_CHECK (widget), NULL);
  gtk_widget_grab_focus (GTK_WIDGET (BW_BENCH_CHECK (widget)->length));
}

static void
bw_bench_check_class_init (BwBenchCheckClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_bench_check_refresh;
  widget_class->map = bw_bench_check_map;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/bench-check.ui");
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, length);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, amount);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, sense);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, unit);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, how);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, take);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, due);
  gtk_widget_class_bind_template_child (widget_class, BwBenchCheck, reason);
  gtk_widget_class_bind_template_callback (widget_class, length_typed);
  gtk_widget_class_bind_template_callback (widget_class, take_clicked);
  gtk_widget_class_bind_template_callback (widget_class, show_entered);
}

static void
bw_bench_check_init (BwBenchCheck *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_describe (GTK_WIDGET (self->length), self->reason);
  bw_describe (GTK_WIDGET (self->sense), self->reason);
  bw_describe (GTK_WIDGET (self->amount), self->reason);
  bw_describe (GTK_WIDGET (self->unit), self->reason);
  bw_describe (GTK_WIDGET (self->how), self->reason);
}
