/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An entry left empty is no habit; what the program has then stands in it as a hint. A number is
 * kept when it is confirmed or the entry is left. */
#include "config.h"

#include "app/workshop/habits-page.h"

#include "app/form/field.h"
#include "app/kit/part-names.h"
#include "app/kit/put-text.h"
#include "app/kit/settings.h"
#include "app/ask/tell.h"
#include "app/kit/wrap-layout.h"
#include "project/book/book-habits.h"
#include "project/fault/fault-error.h"

#include <glib/gi18n-lib.h>

struct _BwHabitsPage {
  GtkWidget parent_instance;
  BwWorkbook *book;
  BwDraft *draft; /* weak */
  GtkWidget *box, *deeds, *take;
  GtkGrid *grid;
  GtkEntry *entry[BW_N_HABITS];
  gboolean unsaved[BW_N_HABITS]; /* what is typed there could not be kept */
};

G_DEFINE_FINAL_TYPE (BwHabitsPage, bw_habits_page, GTK_TYPE_WIDGET)

static BwUnit
unit (void)
{
  return bw_settings_get_unit (bw_settings_get ());
}

static BwField
field_of (BwHabit habit)
{
  BwField field;
  if (!bw_field_find (&field, bw_habit_pointer (habit)))
    g_error ("%s is no field", bw_habit_pointer (habit));
  return field;
}

static BwHabits
habits_of (BwWorkbook *workbook)
{
  const BwBook *book = bw_workbook_get_book (workbook);
  BwHabits habits = { 0 };
  if (book)
    bw_book_get_habits (book, &habits);
  return habits;
}

/* --- Keeping -----------------------------------------------------------------------------------
 */

typedef struct {
  BwHabits before, now;
  BwHabit habit; /* the only one that differs; BW_N_HABITS: any may */
} Change;

/* Who asked, and for which habit, as above. */
typedef struct {
  BwHabitsPage *page; /* held */
  BwHabit habit;
} Asked;

static void
copy_habit (BwHabits *to, const BwHabits *from, BwHabit habit)
{
  to->has[habit] = from->has[habit];
  to->value[habit] = from->value[habit];
}

static gboolean
keep (BwBook *book, gpointer data, GError **error)
{
  const Change *change = data;
  BwHabits before = change->before, now = change->now;
  if (change->habit < BW_N_HABITS) { /* whatever became of the others meanwhile stays */
    bw_book_get_habits (book, &before);
    now = before;
    copy_habit (&before, &change->before, change->habit);
    copy_habit (&now, &change->now, change->habit);
  }
  return bw_book_change_habits (book, &before, &now, error);
}

static void
told (const char *sentence, gpointer data)
{
  g_autofree Asked *asked = data;
  g_autoptr (BwHabitsPage) self = asked->page;
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    if (asked->habit == habit || (asked->habit == BW_N_HABITS && !sentence))
      self->unsaved[habit] = sentence != NULL;
  if (sentence) {
    g_autofree char *words = g_strdup_printf (_ ("Not saved: %s"), sentence);
    bw_tell (GTK_WIDGET (self), GTK_MESSAGE_WARNING, words);
  }
}

static void
change_to (BwHabitsPage *self, const BwHabits *now, BwHabit habit)
{
  Change *change = g_new0 (Change, 1);
  Asked *asked = g_new0 (Asked, 1);
  change->before = habits_of (self->book);
  change->now = *now;
  change->habit = habit;
  *asked = (Asked){ g_object_ref (self), habit };
  bw_workbook_try (self->book, keep, change, g_free, told, asked);
}

/* --- The entries -------------------------------------------------------------------------------
 */

static void
show_habit (BwHabitsPage *self, BwHabit habit, const BwHabits *habits)
{
  BwField field = field_of (habit);
  g_autofree char *text = habits->has[habit]
                              ? bw_field_format (&field, habits->value[habit], unit ())
                              : g_strdup ("");
  bw_put_text (GTK_EDITABLE (self->entry[habit]), text);
  gtk_widget_remove_css_class (GTK_WIDGET (self->entry[habit]), "error");
}

static void
show (BwHabitsPage *self)
{
  BwHabits habits = habits_of (self->book);
  BwDesign plain;
  bw_design_defaults (&plain);
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    BwField field = field_of (habit);
    g_autofree char *usual = bw_field_format (&field, *bw_habit_in (habit, &plain), unit ());
    gtk_entry_set_placeholder_text (self->entry[habit], usual);
    if (!self->unsaved[habit])
      show_habit (self, habit, &habits);
  }
  gtk_widget_set_sensitive (self->deeds, bw_workbook_get_book (self->book) != NULL);
  gtk_widget_set_sensitive (GTK_WIDGET (self->grid), bw_workbook_get_book (self->book) != NULL);
  gtk_widget_set_sensitive (self->take, self->draft != NULL);
}

/* As typed; FALSE with an error when it is no such quantity. */
static gboolean
read_entry (BwHabitsPage *self, BwHabit habit, BwHabits *habits, GError **error)
{
  g_autofree char *text
      = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry[habit]))));
  BwField field = field_of (habit);
  g_autofree char *shown = bw_field_format (&field, habits->value[habit], unit ());
  if (habits->has[habit] && g_str_equal (text, shown))
    return TRUE; /* as it was, to its last digit */
  habits->has[habit] = *text != '\0';
  return !*text || bw_field_parse (&field, text, unit (), &habits->value[habit], error);
}

static void
typed (BwHabitsPage *self, GtkEntry *entry)
{
  BwHabit habit = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (entry), "habit"));
  BwHabits before = habits_of (self->book), now = before;
  g_autoptr (GError) error = NULL;
  gboolean good = read_entry (self, habit, &now, &error);
  if (!good) {
    gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
    bw_tell (GTK_WIDGET (self), GTK_MESSAGE_WARNING, bw_fault_sentence (error));
  } else if (now.has[habit] != before.has[habit] || now.value[habit] < before.value[habit]
             || now.value[habit] > before.value[habit]) {
    change_to (self, &now, habit);
  }
}

static void
left (BwHabitsPage *self, GtkEventController *focus)
{
  typed (self, GTK_ENTRY (gtk_event_controller_get_widget (focus)));
}

static void
add_entry (BwHabitsPage *self, BwHabit habit)
{
  BwField field = field_of (habit);
  GtkWidget *name = gtk_label_new (_ (field.label)), *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  self->entry[habit] = GTK_ENTRY (entry);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 10);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (field.label), -1);
  g_object_set_data (G_OBJECT (entry), "habit", GINT_TO_POINTER (habit));
  g_signal_connect_object (entry, "activate", G_CALLBACK (typed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (left), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (entry, focus);
  gtk_grid_attach (self->grid, name, 0, habit, 1, 1);
  gtk_grid_attach (self->grid, entry, 1, habit, 1, 1);
}

/* --- What is done with all of them -------------------------------------------------------------
 */

static void
take_clicked (BwHabitsPage *self)
{
  BwHabits habits;
  if (!self->draft)
    return;
  bw_draft_settle (self->draft);
  BwDesign design = *bw_draft_get_design (self->draft);
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    habits.has[habit] = TRUE;
    habits.value[habit] = *bw_habit_in (habit, &design);
  }
  change_to (self, &habits, BW_N_HABITS);
}

static void
forget_clicked (BwHabitsPage *self)
{
  change_to (self, &(BwHabits){ 0 }, BW_N_HABITS);
}

char *
bw_habits_told (BwWorkbook *book)
{
  BwHabits habits = habits_of (book);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++) {
    if (!habits.has[habit])
      continue;
    BwField field = field_of (habit);
    g_autofree char *value = bw_field_format (&field, habits.value[habit], unit ());
    g_ptr_array_add (parts, g_strdup_printf ("%s %s", _ (field.label), value));
  }
  if (parts->len == 0)
    return NULL;
  g_ptr_array_add (parts, NULL);
  g_autofree char *list = g_strjoinv (", ", (char **)parts->pdata);
  return g_strdup_printf (_ ("Begun with your habits: %s."), list);
}

/* --- The page ----------------------------------------------------------------------------------
 */

static void
bw_habits_page_dispose (GObject *object)
{
  BwHabitsPage *self = BW_HABITS_PAGE (object);
  g_clear_weak_pointer (&self->draft);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (bw_habits_page_parent_class)->dispose (object);
}

static void
bw_habits_page_finalize (GObject *object)
{
  g_clear_object (&BW_HABITS_PAGE (object)->book);
  G_OBJECT_CLASS (bw_habits_page_parent_class)->finalize (object);
}

static void
bw_habits_page_class_init (BwHabitsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_habits_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = bw_habits_page_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/habits-page.ui");
  gtk_widget_class_bind_template_child (widget_class, BwHabitsPage, box);
  gtk_widget_class_bind_template_child (widget_class, BwHabitsPage, deeds);
  gtk_widget_class_bind_template_child (widget_class, BwHabitsPage, take);
  gtk_widget_class_bind_template_child (widget_class, BwHabitsPage, grid);
  gtk_widget_class_bind_template_callback (widget_class, take_clicked);
  gtk_widget_class_bind_template_callback (widget_class, forget_clicked);
}

static void
bw_habits_page_init (BwHabitsPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->deeds, bw_wrap_layout_new (8));
  for (BwHabit habit = 0; habit < BW_N_HABITS; habit++)
    add_entry (self, habit);
}

GtkWidget *
bw_habits_page_new (BwWorkbook *book)
{
  BwHabitsPage *self = g_object_new (BW_TYPE_HABITS_PAGE, NULL);
  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_settings_get (), "notify::units", G_CALLBACK (show), self,
                           G_CONNECT_SWAPPED);
  show (self);
  return GTK_WIDGET (self);
}

void
bw_habits_page_set_draft (BwHabitsPage *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_HABITS_PAGE (self));
  g_set_weak_pointer (&self->draft, draft);
  show (self);
}
