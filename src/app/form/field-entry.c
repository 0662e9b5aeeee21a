/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A field on screen. It shows the project's value or what waits in the draft, never a third thing.
 */
#include "config.h"

#include "app/form/field-entry.h"
#include "app/form/doubt.h"
#include "app/form/field-aside.h"
#include "app/form/typed.h"
#include "app/kit/put-text.h"
#include "app/kit/select-all.h"
#include "app/kit/settings.h"
#include "app/kit/tip.h"
#include "app/kit/words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define CHARS_MOST 12 /* what is no number, and waits, may be of any length */

struct _BwFieldEntry {
  GtkWidget parent_instance;
  BwDraft *draft;
  BwProject *project;
  BwField field;
  char *title; /* NULL: the field's own */
  char *shown; /* what we wrote into the entry; differs from its text while somebody types */
  BwDoubt doubt;
  gboolean lies;      /* in a drawing */
  GtkWidget *slip;    /* there it holds what is told */
  gboolean is_taking; /* what is told now is told about what was typed here last */
  gboolean is_fresh;  /* and nothing has been typed elsewhere since */
  GtkBox *row;
  GtkLabel *name;
  GtkWidget *example; /* NULL before it is one */
  GtkEntry *entry;
  BwFieldAside *aside; /* NULL before anything is told: of most numbers nothing ever is */
};

enum { TAKEN, N_SIGNALS };
static guint signals[N_SIGNALS];

enum { PROP_FIELD = 1, PROP_TITLE, PROP_CHARS, PROP_CAPTION, N_PROPS };
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

/* How wide the toolkit takes one character of an entry to be. Asking takes longer than to make the
 * entry, and all are asked in one font. */
static int
character_width (PangoContext *context)
{
  static PangoFontDescription *asked;
  static double asked_resolution;
  static int width;
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double resolution = pango_cairo_context_get_resolution (context);
  if (asked && pango_font_description_equal (asked, font) && asked_resolution == resolution)
    return width;
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  width = MAX (pango_font_metrics_get_approximate_char_width (metrics),
               pango_font_metrics_get_approximate_digit_width (metrics));
  pango_font_metrics_unref (metrics);
  g_clear_pointer (&asked, pango_font_description_free);
  asked = pango_font_description_copy (font);
  asked_resolution = resolution;
  return width;
}

/* How many of the entry's own characters a text is as wide as: a unit is wider than its letters are
 * many. */
static int
chars_as_wide (BwFieldEntry *self, const char *text)
{
  int one = character_width (gtk_widget_get_pango_context (GTK_WIDGET (self->entry)));
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self->entry), text);
  int width;
  pango_layout_get_size (layout, &width, NULL);
  return one > 0 ? (width + one - 1) / one : (int)g_utf8_strlen (text, -1);
}

/* As many characters as such a quantity takes most often: the drawing must not stir while it is
 * typed. */
static int
chars_of (const BwField *field)
{
  switch (field->quantity) {
  case BW_QUANTITY_LENGTH:
    return g_str_has_prefix (field->pointer, "/stone/values_mm/") ? 8 : 9;
  case BW_QUANTITY_COUNT:
    return 3;
  default:
    return 5;
  }
}

/* In a drawing a longer number makes room for itself once it is taken; none is shown in part. */
static void
make_room (BwFieldEntry *self)
{
  int usual = chars_of (&self->field);
  if (self->lies)
    g_object_set (self, "chars", CLAMP (chars_as_wide (self, self->shown), usual, CHARS_MOST),
                  NULL);
}

static void
show_text (BwFieldEntry *self, const char *text)
{
  g_free (self->shown);
  self->shown = g_strdup (text);
  if (g_strcmp0 (text_of (self), text) != 0)
    bw_put_text (GTK_EDITABLE (self->entry), text);
  make_room (self);
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

/* The page the entry lies on has been scrolled: a slip would hang where its entry no longer is. */
static void
page_scrolled (BwFieldEntry *self)
{
  self->is_fresh = FALSE;
  gtk_popover_popdown (GTK_POPOVER (self->slip));
}

static gboolean
is_in_sight (BwFieldEntry *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkWidget *page = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t bounds;
  if (!gtk_widget_get_mapped (widget))
    return FALSE;
  if (!page)
    return TRUE;
  return gtk_widget_compute_bounds (widget, page, &bounds) && bounds.origin.y >= 0
         && bounds.origin.y + bounds.size.height <= (float)gtk_widget_get_height (page);
}

static void
follow_page (BwFieldEntry *self)
{
  GtkWidget *page = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);
  if (!page)
    return;
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page));
  g_signal_handlers_disconnect_by_func (place, page_scrolled, self);
  g_signal_connect_object (place, "value-changed", G_CALLBACK (page_scrolled), self,
                           G_CONNECT_SWAPPED);
}

/* In a drawing there is no room under the entry: what is told hangs on it as a slip, while the
 * maker is there and until something is typed, elsewhere or over what it speaks of. */
static void
show_slip (BwFieldEntry *self)
{
  if (!self->slip)
    return;
  gboolean here = gtk_widget_get_state_flags (GTK_WIDGET (self)) & GTK_STATE_FLAG_FOCUS_WITHIN;
  gboolean told = bw_field_aside_is_telling (self->aside);
  if (!told || is_being_typed (self) || !(here || self->is_fresh) || !is_in_sight (self)) {
    gtk_popover_popdown (GTK_POPOVER (self->slip));
    return;
  }
  follow_page (self);
  gtk_popover_popup (GTK_POPOVER (self->slip));
}

static const char *
description (BwFieldEntry *self, const char *reason)
{
  if (reason)
    return reason;
  if (self->doubt.question)
    return self->doubt.question;
  if (bw_project_is_example (self->project, self->field.pointer))
    return _ ("An example: type your own");
  return self->field.tip ? _ (self->field.tip) : NULL;
}

static void better_clicked (BwFieldEntry *self);

static BwFieldAside *
ensure_aside (BwFieldEntry *self)
{
  if (self->aside)
    return self->aside;
  GtkWidget *aside = bw_field_aside_new ();
  self->aside = BW_FIELD_ASIDE (aside);
  g_signal_connect_object (aside, "better", G_CALLBACK (better_clicked), self, G_CONNECT_SWAPPED);
  if (self->lies) {
    self->slip = gtk_popover_new ();
    gtk_popover_set_autohide (GTK_POPOVER (self->slip), FALSE);
    gtk_popover_set_child (GTK_POPOVER (self->slip), aside);
    gtk_widget_set_parent (self->slip, GTK_WIDGET (self));
  } else {
    gtk_widget_insert_before (aside, GTK_WIDGET (self), NULL);
  }
  return self->aside;
}

static void
show_reason (BwFieldEntry *self, const char *reason)
{
  if (reason || self->aside)
    bw_field_aside_tell (ensure_aside (self), reason);
  tell (self, description (self, reason));
}

/* A number that is hard to believe stands, and is asked about. */
static void
show_doubt (BwFieldEntry *self, gboolean pending)
{
  BwExamples made_up = bw_project_get_examples (self->project);
  bw_doubt_clear (&self->doubt);
  gboolean doubtful
      = !pending
        && bw_doubt_find (&self->doubt, &self->field, bw_draft_get_design (self->draft), &made_up,
                          bw_settings_get_unit (bw_settings_get ()));
  if (self->aside)
    bw_field_aside_ask (self->aside, NULL, NULL);
  if (doubtful)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "doubt");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "doubt");
  if (!doubtful)
    return;
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *number = bw_field_format (&self->field, self->doubt.better, unit);
  g_autofree char *button = g_strdup_printf (_ ("%s?"), number);
  bw_field_aside_ask (ensure_aside (self), self->doubt.question,
                      self->doubt.has_better ? button : NULL);
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

static void
show_example_word (BwFieldEntry *self, gboolean shown)
{
  if (!self->example && shown) {
    self->example = gtk_label_new (_ ("example"));
    gtk_widget_add_css_class (self->example, "example");
    gtk_box_insert_child_after (self->row, self->example, GTK_WIDGET (self->name));
  }
  if (self->example)
    gtk_widget_set_visible (self->example, shown);
}

/* A number that the program made up is marked until the maker has typed one. */
static void
show_example (BwFieldEntry *self)
{
  gboolean example = bw_project_is_example (self->project, self->field.pointer);
  show_example_word (self, example && !self->lies);
  if (example)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "example");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "example");
}

/* In a drawing, what is not given is an open blank. */
static void
show_blank (BwFieldEntry *self)
{
  if (self->lies && *text_of (self) == '\0')
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "blank");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "blank");
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
  self->is_fresh = self->is_taking;
  show_doubt (self, pending != NULL);
  show_reason (self, pending ? pending->reason : NULL);
  show_mark (self, pending || bw_draft_blames (self->draft, self->field.pointer));
  show_example (self);
  if (pending) {
    show_text (self, pending->text);
  } else if (!is_being_typed (self)) {
    g_autofree char *text = value_text (self);
    show_text (self, text);
  }
  show_blank (self);
  show_slip (self);
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

static void
give_back (BwFieldEntry *self)
{
  bw_draft_forget (self->draft, self->field.pointer);
  show_anew (self);
}

/* A field that must hold a number and was left empty holds the one it had. */
static gboolean
is_left_empty (BwFieldEntry *self)
{
  const char *text = text_of (self);
  return !self->field.flag && text[strspn (text, " ")] == '\0';
}

void
bw_field_entry_take (BwFieldEntry *self)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self));
  if (!self->draft || !is_being_typed (self))
    return;
  if (is_left_empty (self)) {
    give_back (self);
    return;
  }
  g_autofree char *typed = g_strdup (text_of (self));
  g_clear_pointer (&self->shown, g_free);
  self->is_taking = TRUE;
  bw_draft_type (self->draft, &self->field, typed, bw_settings_get_unit (bw_settings_get ()));
  show_anew (self);
  self->is_taking = FALSE;
}

static void
better_clicked (BwFieldEntry *self)
{
  BwUnit unit = bw_settings_get_unit (bw_settings_get ());
  g_autofree char *text = bw_field_format (&self->field, self->doubt.better, unit);
  bw_draft_type (self->draft, &self->field, text, unit);
  show_anew (self);
  bw_field_entry_edit (self);
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
  show_slip (self);
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
    gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
    return TRUE;
  default:
    return FALSE;
  }
}

static void
show_name (BwFieldEntry *self)
{
  const char *name = self->title ? self->title : _ (self->field.label);
  if (self->lies)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    name, -1);
  else
    bw_label_set_words (self->name, name);
  gtk_widget_set_visible (GTK_WIDGET (self->name), *gtk_label_get_text (self->name) != '\0');
  bw_tip_set (GTK_WIDGET (self), self->field.tip ? _ (self->field.tip) : NULL);
  gtk_entry_set_placeholder_text (self->entry,
                                  self->field.flag && !self->lies ? _ ("not given") : NULL);
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
bw_field_entry_lie (BwFieldEntry *self, const char *caption, gboolean above)
{
  g_return_if_fail (BW_IS_FIELD_ENTRY (self) && !self->lies && !self->aside);
  self->lies = TRUE;
  gtk_widget_add_css_class (GTK_WIDGET (self), "dimension");
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  g_object_set (self, "chars", chars_of (&self->field), NULL);
  gtk_widget_set_hexpand (GTK_WIDGET (self->name), FALSE);
  gtk_label_set_wrap (self->name, FALSE);
  gtk_label_set_xalign (self->name, above ? 0.5f : 0);
  gtk_entry_set_alignment (self->entry, 0.5f);
  gtk_box_set_spacing (self->row, above ? 0 : 4);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->row),
                                  above ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  bw_label_set_words (self->name, caption ? caption : "");
  show_name (self);
}

double
bw_field_entry_figure_middle (BwFieldEntry *self, int height)
{
  int entry;
  g_return_val_if_fail (BW_IS_FIELD_ENTRY (self), 0);
  gtk_widget_measure (GTK_WIDGET (self->entry), GTK_ORIENTATION_VERTICAL, -1, NULL, &entry, NULL,
                      NULL);
  gboolean above
      = gtk_orientable_get_orientation (GTK_ORIENTABLE (self->row)) == GTK_ORIENTATION_VERTICAL;
  return above ? height - entry / 2.0 : height / 2.0;
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
  } else if (id == PROP_CAPTION) {
    if (g_value_get_string (value))
      bw_field_entry_lie (self, g_value_get_string (value), FALSE);
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
  bw_doubt_clear (&self->doubt);
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
  /* After "field" in a template, which it lays into a drawing. */
  properties[PROP_CAPTION] = g_param_spec_string ("caption", NULL, NULL, NULL,
                                                  G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[TAKEN] = g_signal_new ("taken", BW_TYPE_FIELD_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);

  gtk_widget_class_install_action (widget_class, BW_TYPED_ACTION, NULL, take_typed);
  gtk_widget_class_set_css_name (widget_class, "field");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/field-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, name);
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, entry);
  gtk_widget_class_bind_template_child (widget_class, BwFieldEntry, row);
  gtk_widget_class_bind_template_callback (widget_class, show_slip);
  gtk_widget_class_bind_template_callback (widget_class, activated);
  gtk_widget_class_bind_template_callback (widget_class, focus_left);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
}

static void
bw_field_entry_init (BwFieldEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  bw_select_all_on_click (GTK_WIDGET (self->entry));
}

GtkWidget *
bw_field_entry_new (const char *pointer)
{
  return g_object_new (BW_TYPE_FIELD_ENTRY, "field", pointer, NULL);
}
