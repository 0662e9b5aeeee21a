/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A field on screen. It shows the project's value or what waits in the draft, never a third thing.
 */
#include "config.h"

#include "app/form/field-entry.h"
#include "app/form/typed.h"
#include "app/kit/settings.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>

struct _BwFieldEntry {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project;
  BwField field;
  char *title; /* NULL: the field's own */
  char *shown; /* what we wrote into the entry; differs from its text while somebody types */
  GtkLabel *name;
  GtkLabel *example;
  GtkEntry *entry;
  GtkLabel *reason;
};

enum { TAKEN, N_SIGNALS };
static guint signals[N_SIGNALS];

enum { PROP_FIELD = 1, PROP_TITLE, PROP_CHARS, N_PROPS };
static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (BwFieldEntry, bw_field_entry, GTK_TYPE_WIDGET)

static const char *
text_of (BwFieldEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

static gboolean
is_being_typed (BwFieldEntry *self)
{
  return self->shown && g_strcmp0 (text_of (self), self->shown) != 0;
}

static void
show_text (BwFieldEntry *self, const char *text)
{
  g_free (self->shown);
  self->shown = g_strdup (text);
  if (g_strcmp0 (text_of (self), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

/* A reader hears at the entry what stands beside it: what is wrong, else what the number means. */
static void
tell (BwFieldEntry *self, const char *words)
{
  GtkAccessible *entry = GTK_ACCESSIBLE (self->entry);
  if (words)
    gtk_accessible_update_property (entry, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  else
    gtk_accessible_reset_property (entry, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
}

static void
show_reason (BwFieldEntry *self, const char *reason)
{
  bw_label_set_words (self->reason, reason ? reason : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), reason != NULL);
  tell (self, reason ? reason : self->field.tip ? _ (self->field.tip) : NULL);
}

static void
show_mark (BwFieldEntry *self, gboolean wrong)
{
  if (wrong)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

/* A number that the program made up is marked until the maker has typed one. */
static void
show_example (BwFieldEntry *self)
{
  gboolean example = bw_project_is_example (self->project, self->field.pointer);
  gtk_widget_set_visible (GTK_WIDGET (self->example), example);
  if (example)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "example");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "example");
}

static char *
value_text (BwFieldEntry *self)
{
  const BwDesign *design = bw_draft_get_design (self->draft);
  if (!bw_field_is_there (&self->field, design))
    return g_strdup ("");
  return bw_field_format (&self->field, bw_field_get (&self->field, design),
                          bw_settings_get_unit (bw_settings_get ()));
}

static void
refresh (BwFieldEntry *self)
{
  if (!self->draft)
    return;
  const BwPending *pending = bw_draft_pending (self->draft, self->field.pointer);
  show_reason (self, pending ? pending->reason : NULL);
  show_mark (self, pending || bw_draft_blames (self->draft, self->field.pointer));
  show_example (self);
  if (pending) {
    show_text (self, pending->text);
  } else if (!is_being_typed (self)) {
    g_autofree char *text = value_text (self);
    show_text (self, text);
  }
}

/* Written anew whatever the entry holds. */
static void
show_anew (BwFieldEntry *self)
{
  g_clear_pointer (&self->shown, g_free);
  refresh (self);
}

static void
project_changed (BwFieldEntry *self, guint what)
{
  if (what & BW_CHANGED_DESIGN)
    refresh (self);
}

static void
follow_project (BwFieldEntry *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_func (self->project, project_changed, self);
  g_set_object (&self->project, bw_draft_get_project (self->draft));
  g_signal_connect_object (self->project, "changed", G_CALLBACK (project_changed), self,
                           G_CONNECT_SWAPPED);
  show_anew (self);
}

void
bw_field_entry_take (BwFieldEntry *self)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self));
  if (!self->draft || !is_being_typed (self))
    return;
  g_autofree char *typed = g_strdup (text_of (self));
  g_clear_pointer (&self->shown, g_free);
  bw_draft_type (self->draft, &self->field, typed, bw_settings_get_unit (bw_settings_get ()));
  show_anew (self);
}

static void
activated (BwFieldEntry *self)
{
  if (self->draft && !is_being_typed (self))
    bw_draft_confirm (self->draft, &self->field);
  bw_field_entry_take (self);
  gboolean stands = self->draft && !bw_draft_pending (self->draft, self->field.pointer);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
  g_signal_emit (self, signals[TAKEN], 0, stands);
}

static void
focus_left (BwFieldEntry *self)
{
  bw_field_entry_take (self);
  if (self->draft)
    bw_draft_settle (self->draft);
}

static gboolean
step_by (BwFieldEntry *self, double steps)
{
  if (!self->draft)
    return FALSE;
  bw_field_entry_take (self);
  double step = bw_field_step (&self->field, bw_settings_get_unit (bw_settings_get ()));
  bw_draft_nudge (self->draft, &self->field, steps * step);
  show_anew (self);
  return TRUE;
}

static void
give_back (BwFieldEntry *self)
{
  bw_draft_forget (self->draft, self->field.pointer);
  show_anew (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static gboolean
key_pressed (BwFieldEntry *self, guint key, guint code, GdkModifierType modifiers)
{
  if (!self->draft || modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return FALSE;
  switch (key) {
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    return step_by (self, 1);
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    return step_by (self, -1);
  case GDK_KEY_Page_Up:
    return step_by (self, 10);
  case GDK_KEY_Page_Down:
    return step_by (self, -10);
  case GDK_KEY_Escape:
    if (!is_being_typed (self) && !bw_draft_pending (self->draft, self->field.pointer))
      return FALSE; /* let it close the popover round us */
    give_back (self);
    return TRUE;
  default:
    return FALSE;
  }
}

/* Only a focused entry steps; over any other the wheel scrolls the page as everywhere. */
static gboolean
scrolled (BwFieldEntry *self, double dx, double dy)
{
  GtkStateFlags state = gtk_widget_get_state_flags (GTK_WIDGET (self->entry));
  if (!(state & GTK_STATE_FLAG_FOCUS_WITHIN) || dy == 0)
    return FALSE;
  return step_by (self, dy < 0 ? 1 : -1);
}

static void
show_name (BwFieldEntry *self)
{
  const char *name = self->title ? self->title : _ (self->field.label);
  bw_label_set_words (self->name, name);
  gtk_widget_set_visible (GTK_WIDGET (self->name), *name != '\0');
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), self->field.tip ? _ (self->field.tip) : NULL);
  gtk_entry_set_placeholder_text (self->entry, self->field.flag ? _ ("not given") : NULL);
}

void
bw_field_entry_set_pointer (BwFieldEntry *self, const char *pointer)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self));
  if (!pointer || g_strcmp0 (self->field.pointer, pointer) == 0)
    return;
  if (!bw_field_find (&self->field, pointer))
    g_error ("no field %s", pointer);
  show_name (self);
  show_anew (self);
}

void
bw_field_entry_set_title (BwFieldEntry *self, const char *title)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self));
  g_free (self->title);
  self->title = g_strdup (title);
  show_name (self);
}

const char *
bw_field_entry_get_pointer (BwFieldEntry *self)
{
  g_return_val_if_fail (BW_IS_FIELD_ENTRY (self), NULL);
  return self->field.pointer;
}

void
bw_field_entry_edit (BwFieldEntry *self)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

void
bw_field_entry_bind (BwFieldEntry *self, BwDraft *draft)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self) && BW_IS_DRAFT (draft));
  if (!g_set_object (&self->draft, draft))
    return;
  gtk_widget_set_sensitive (GTK_WIDGET (self->entry), TRUE);
  g_signal_connect_object (draft, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_draft_get_session (draft), "project-changed",
                           G_CALLBACK (follow_project), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bw_settings_get (), "notify::units", G_CALLBACK (show_anew), self,
                           G_CONNECT_SWAPPED);
  follow_project (self);
}

static void
bw_field_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwFieldEntry *self = BW_FIELD_ENTRY (object);
  if (id == PROP_FIELD) {
    bw_field_entry_set_pointer (self, g_value_get_string (value));
  } else if (id == PROP_TITLE) {
    bw_field_entry_set_title (self, g_value_get_string (value));
  } else {
    gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), g_value_get_int (value));
    gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), g_value_get_int (value));
  }
}

static void
bw_field_entry_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  BwFieldEntry *self = BW_FIELD_ENTRY (object);
  if (id == PROP_CHARS)
    g_value_set_int (value, gtk_editable_get_width_chars (GTK_EDITABLE (self->entry)));
  else
    g_value_set_string (value, id == PROP_FIELD ? self->field.pointer : self->title);
}

static void
bw_field_entry_dispose (GObject *object)
{
  BwFieldEntry *self = BW_FIELD_ENTRY (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->draft);
  g_clear_object (&self->project);
  g_clear_pointer (&self->title, g_free);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (bw_field_entry_parent_class)->dispose (object);
}

static void
take_typed (GtkWidget *widget, const char *action, GVariant *parameter)
{
  bw_field_entry_take (BW_FIELD_ENTRY (widget));
}

static void
bw_field_entry_class_init (BwFieldEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  object_class->set_property = bw_field_entry_set_property;
  object_class->get_property = bw_field_entry_get_property;
  object_class->dispose = bw_field_entry_dispose;
  properties[PROP_FIELD]
      = g_param_spec_string ("field", NULL, NULL, NULL, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_TITLE]
      = g_param_spec_string ("title", NULL, NULL, NULL, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CHARS] = g_param_spec_int ("chars", NULL, NULL, 1, 40, 10,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[TAKEN] = g_signal_new ("taken", BW_TYPE_FIELD_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);

  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_css_name (widget_class, "field");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/field-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, name);
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, example);
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, entry);
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, reason);
  gtk_widget_class_bind_template_callback (widget_class, activated);
  gtk_widget_class_bind_template_callback (widget_class, focus_left);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
  gtk_widget_class_bind_template_callback (widget_class, scrolled);
}

static void
bw_field_entry_init (BwFieldEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  /* A template of GTK 4.8 can name one alone. */
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->entry),
                                  GTK_ACCESSIBLE_RELATION_DESCRIBED_BY, self->reason, self->example,
                                  NULL, -1);
}

GtkWidget *
bw_field_entry_new (const char *pointer)
{
  return g_object_new (BW_TYPE_FIELD_ENTRY, "field", pointer, NULL);
}
