/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two tables, of choices and of switches, and one row for each of their lines. */
#include "config.h"

#include "app/window/preferences.h"
#include "app/kit/long-list.h"
#include "app/kit/part-names.h"
#include "app/kit/settings.h"
#include "project/file/sizes.h"

#include <glib/gi18n-lib.h>

#define CHOICES_MOST 5

struct _BwPreferences {
  GtkWindow parent_instance;
  GtkGrid *everywhere, *start;
  GtkBox *care;
  GArray *sizes; /* of BwBead */
};

G_DEFINE_FINAL_TYPE (BwPreferences, bw_preferences, GTK_TYPE_WINDOW)

typedef struct {
  const char *setting, *label;
  const char *words[CHOICES_MOST], *shown[CHOICES_MOST]; /* ended by NULL */
} Choice;

static const Choice choices[] = {
  { "units", N_ ("Lengths"), { "mm", "inch" }, { N_ ("Millimetres"), N_ ("Inches") } },
  { "paper",
    N_ ("Paper"),
    { "usual", "a4", "a5", "letter" },
    { N_ ("By Region"), N_ ("A4"), N_ ("A5"), N_ ("Letter") } },
  { "appearance",
    N_ ("Window"),
    { "system", "light", "dark" },
    { N_ ("Follow the System"), N_ ("Light"), N_ ("Dark") } },
};

static const struct {
  const char *setting, *label;
} flags[] = {
  { "autosave", N_ ("Keep a _safety copy of unsaved work") },
  { "keep-backup", N_ ("Keep a _backup when saving") },
  { "show-letters", N_ ("Show bead _letters") },
  { "lamp-light", N_ ("Show the stone in la_mp light") },
  { "show-guide", N_ ("Show the _guide on the shelf") },
};

static GtkWidget *
add_row (GtkGrid *grid, const char *label, GtkWidget *widget, int row)
{
  GtkWidget *name = gtk_label_new (label);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (name), widget);
  gtk_grid_attach (grid, name, 0, row, 1, 1);
  gtk_grid_attach (grid, widget, 1, row, 1, 1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                  name, NULL, -1);
  return name;
}

/* --- Choices -----------------------------------------------------------------------------------
 */

static void
choice_made (GtkDropDown *drop_down, GParamSpec *spec, gpointer data)
{
  const Choice *choice = data;
  guint selected = gtk_drop_down_get_selected (drop_down);
  if (selected < CHOICES_MOST && choice->words[selected])
    g_object_set (bw_settings_get (), choice->setting, choice->words[selected], NULL);
}

/* What was chosen elsewhere and is none of those here stands last, as it is. */
static void
add_choice (BwPreferences *self, const Choice *choice, int row)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  g_autofree char *word = NULL;
  guint n = 0, selected = G_MAXUINT;
  g_object_get (bw_settings_get (), choice->setting, &word, NULL);
  for (; n < CHOICES_MOST && choice->words[n]; n++) {
    gtk_string_list_append (list, _ (choice->shown[n]));
    if (g_strcmp0 (word, choice->words[n]) == 0)
      selected = n;
  }
  if (selected == G_MAXUINT) {
    gtk_string_list_append (list, word);
    selected = n;
  }
  GtkWidget *drop_down = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&list)), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop_down), selected);
  g_signal_connect (drop_down, "notify::selected", G_CALLBACK (choice_made), (gpointer)choice);
  add_row (self->everywhere, _ (choice->label), drop_down, row);
}

/* --- What a project starts with ----------------------------------------------------------------
 */

static void
bead_chosen (BwPreferences *self, GParamSpec *spec, GtkDropDown *drop_down)
{
  guint selected = gtk_drop_down_get_selected (drop_down);
  const char *name = selected > 0 ? g_array_index (self->sizes, BwBead, selected - 1).name : "";
  g_object_set (bw_settings_get (), "start-bead", name, NULL);
}

static void
add_beads (BwPreferences *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  g_autofree char *name = NULL;
  guint selected = 0;
  g_object_get (bw_settings_get (), "start-bead", &name, NULL);
  gtk_string_list_append (list, _ ("the usual one"));
  for (guint i = 0; i < self->sizes->len; i++) {
    const BwBead *bead = &g_array_index (self->sizes, BwBead, i);
    gtk_string_list_append (list, bead->name);
    if (g_strcmp0 (name, bead->name) == 0)
      selected = i + 1;
  }
  GtkWidget *drop_down = gtk_drop_down_new (NULL, NULL);
  bw_long_list_fill (GTK_DROP_DOWN (drop_down), list);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop_down), selected);
  g_signal_connect_object (drop_down, "notify::selected", G_CALLBACK (bead_chosen), self,
                           G_CONNECT_SWAPPED);
  add_row (self->start, _ ("Bead"), drop_down, 0);
}

static void
add_flag (BwPreferences *self, const char *setting, const char *label)
{
  GtkWidget *check = gtk_check_button_new_with_mnemonic (label);
  gtk_box_append (self->care, check);
  g_object_bind_property (bw_settings_get (), setting, check, "active",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
}

/* --- The window --------------------------------------------------------------------------------
 */

static void
bw_preferences_finalize (GObject *object)
{
  g_clear_pointer (&BW_PREFERENCES (object)->sizes, g_array_unref);
  G_OBJECT_CLASS (bw_preferences_parent_class)->finalize (object);
}

static void
bw_preferences_class_init (BwPreferencesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = bw_preferences_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/preferences.ui");
  gtk_widget_class_bind_template_child (widget_class, BwPreferences, everywhere);
  gtk_widget_class_bind_template_child (widget_class, BwPreferences, start);
  gtk_widget_class_bind_template_child (widget_class, BwPreferences, care);
}

static void
bw_preferences_init (BwPreferences *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->sizes = bw_sizes_load (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (choices); i++)
    add_choice (self, &choices[i], (int)i);
  add_beads (self);
  for (gsize i = 0; i < G_N_ELEMENTS (flags); i++)
    add_flag (self, flags[i].setting, _ (flags[i].label));
  bw_part_names_give (GTK_WIDGET (self));
}

void
bw_preferences_show (GtkApplication *application, GtkWindow *parent)
{
  BwPreferences *self = NULL;
  for (GList *item = gtk_application_get_windows (application); item; item = item->next)
    if (BW_IS_PREFERENCES (item->data))
      self = item->data;
  if (!self)
    self = g_object_new (BW_TYPE_PREFERENCES, "application", application, NULL);
  if (parent != GTK_WINDOW (self))
    gtk_window_set_transient_for (GTK_WINDOW (self), parent);
  gtk_window_present (GTK_WINDOW (self));
}

void
bw_preferences_begin (BwProject *project)
{
  BwSettings *settings = bw_settings_get ();
  g_autoptr (GArray) sizes = bw_sizes_load (NULL);
  g_autofree char *name = NULL;
  BwStart start = {
    .needle_mm = bw_settings_get_number (settings, "start-needle-mm"),
    .tail_mm = bw_settings_get_number (settings, "start-tail-mm"),
    .cord_thickness_mm = bw_settings_get_number (settings, "start-cord-mm"),
    .cord_width_mm = bw_settings_get_number (settings, "start-cord-width-mm"),
    .hanging_cord_mm = bw_settings_get_number (settings, "start-hanging-cord-mm"),
  };
  g_object_get (settings, "start-bead", &name, NULL);
  for (guint i = 0; i < sizes->len; i++)
    if (g_strcmp0 (name, g_array_index (sizes, BwBead, i).name) == 0)
      start.bead = &g_array_index (sizes, BwBead, i);
  bw_project_begin_with (project, &start);
}
