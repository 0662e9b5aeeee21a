/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One object between the program and GSettings, so that everything else binds to plain properties
 * and a missing schema (a program run from its build folder) costs memory of the values, not the
 * program. */
#include "config.h"

#include "app/kit/settings.h"

/* What a backend is chosen with is offered to whoever says that he means it. */
#define G_SETTINGS_ENABLE_BACKEND
#include <gio/gsettingsbackend.h>

#define KEPT_IN "preferences.ini"
#define KEPT_UNDER "preferences"

enum {
  PROP_UNITS = 1,
  PROP_APPEARANCE,
  PROP_PAPER,
  PROP_SHOW_LETTERS,
  PROP_LAMP_LIGHT,
  PROP_WINDOW_WIDTH,
  PROP_WINDOW_HEIGHT,
  PROP_MAXIMIZED,
  PROP_STAGE_SHARE,
  PROP_TRAY_FOLDED,
  PROP_STONE_FOLDED,
  PROP_AUTOSAVE,
  PROP_KEEP_BACKUP,
  PROP_SHOW_GUIDE,
  PROP_PRINT_LARGE,
  PROP_PRINT_SPARING,
  PROP_PRINT_COSTS,
  PROP_PRINT_LEFT_OUT,
  PROP_BEAD_SECONDS,
  PROP_START_BEAD,
  PROP_START_NEEDLE,
  PROP_START_TAIL,
  PROP_START_CORD,
  PROP_START_CORD_WIDTH,
  PROP_START_HANGING_CORD,
  N_PROPS,
};

struct _BwSettings {
  GObject parent_instance;
  GSettings *store; /* NULL without a schema or a place to keep it */
  GValue value[N_PROPS];
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (BwSettings, bw_settings, G_TYPE_OBJECT)

static void
bw_settings_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  g_value_copy (&BW_SETTINGS (object)->value[id], value);
}

static void
bw_settings_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  BwSettings *self = BW_SETTINGS (object);
  if (g_param_values_cmp (spec, value, &self->value[id]) == 0)
    return;
  g_value_copy (value, &self->value[id]);
  g_object_notify_by_pspec (object, spec);
}

static void
bw_settings_finalize (GObject *object)
{
  BwSettings *self = BW_SETTINGS (object);
  g_clear_object (&self->store);
  for (int i = 1; i < N_PROPS; i++)
    g_value_unset (&self->value[i]);
  G_OBJECT_CLASS (bw_settings_parent_class)->finalize (object);
}

static GParamSpec *
start_length (const char *name, GParamFlags flags)
{
  return g_param_spec_double (name, NULL, NULL, 0, 1000, 0, flags);
}

static void
bw_settings_class_init (BwSettingsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;
  object_class->get_property = bw_settings_get_property;
  object_class->set_property = bw_settings_set_property;
  object_class->finalize = bw_settings_finalize;

  properties[PROP_UNITS] = g_param_spec_string ("units", NULL, NULL, "mm", flags);
  properties[PROP_APPEARANCE] = g_param_spec_string ("appearance", NULL, NULL, "system", flags);
  properties[PROP_PAPER] = g_param_spec_string ("paper", NULL, NULL, "usual", flags);
  properties[PROP_SHOW_LETTERS] = g_param_spec_boolean ("show-letters", NULL, NULL, FALSE, flags);
  properties[PROP_LAMP_LIGHT] = g_param_spec_boolean ("lamp-light", NULL, NULL, FALSE, flags);
  properties[PROP_WINDOW_WIDTH]
      = g_param_spec_int ("window-width", NULL, NULL, 600, 16384, 1280, flags);
  properties[PROP_WINDOW_HEIGHT]
      = g_param_spec_int ("window-height", NULL, NULL, 400, 16384, 860, flags);
  properties[PROP_MAXIMIZED] = g_param_spec_boolean ("maximized", NULL, NULL, FALSE, flags);
  properties[PROP_STAGE_SHARE]
      = g_param_spec_double ("stage-share", NULL, NULL, 0.2, 0.9, 0.68, flags);
  properties[PROP_TRAY_FOLDED] = g_param_spec_boolean ("tray-folded", NULL, NULL, FALSE, flags);
  properties[PROP_STONE_FOLDED] = g_param_spec_boolean ("stone-folded", NULL, NULL, FALSE, flags);
  properties[PROP_AUTOSAVE] = g_param_spec_boolean ("autosave", NULL, NULL, TRUE, flags);
  properties[PROP_KEEP_BACKUP] = g_param_spec_boolean ("keep-backup", NULL, NULL, TRUE, flags);
  properties[PROP_SHOW_GUIDE] = g_param_spec_boolean ("show-guide", NULL, NULL, TRUE, flags);
  properties[PROP_PRINT_LARGE] = g_param_spec_boolean ("print-large", NULL, NULL, FALSE, flags);
  properties[PROP_PRINT_SPARING] = g_param_spec_boolean ("print-sparing", NULL, NULL, FALSE, flags);
  properties[PROP_PRINT_COSTS] = g_param_spec_boolean ("print-costs", NULL, NULL, FALSE, flags);
  properties[PROP_PRINT_LEFT_OUT]
      = g_param_spec_int ("print-left-out", NULL, NULL, 0, G_MAXINT, 0, flags);
  properties[PROP_BEAD_SECONDS]
      = g_param_spec_double ("bead-seconds", NULL, NULL, 0, 3600, 0, flags);
  properties[PROP_START_BEAD] = g_param_spec_string ("start-bead", NULL, NULL, "", flags);
  properties[PROP_START_NEEDLE] = start_length ("start-needle-mm", flags);
  properties[PROP_START_TAIL] = start_length ("start-tail-mm", flags);
  properties[PROP_START_CORD] = start_length ("start-cord-mm", flags);
  properties[PROP_START_CORD_WIDTH] = start_length ("start-cord-width-mm", flags);
  properties[PROP_START_HANGING_CORD] = start_length ("start-hanging-cord-mm", flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

/* A file of the maker's own and not the desktop's store: that one is written over the session bus,
 * and where there is none it takes every change and keeps none. What the variable names goes
 * before, as everywhere. NULL: there is no place to keep anything. */
static GSettingsBackend *
new_backend (GSettingsSchema *schema)
{
  if (g_getenv ("GSETTINGS_BACKEND"))
    return g_settings_backend_get_default ();
  g_autofree char *folder = g_build_filename (g_get_user_config_dir (), "bandwright", NULL);
  g_autofree char *path = g_build_filename (folder, KEPT_IN, NULL);
  if (g_mkdir_with_parents (folder, 0700) != 0)
    return NULL;
  return g_keyfile_settings_backend_new (path, g_settings_schema_get_path (schema), KEPT_UNDER);
}

/* A schema that lacks one of our keys belongs to another version: asking GSettings for the key
 * would end the program, so each is looked for first. */
static void
bind_to_store (BwSettings *self)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema
      = source ? g_settings_schema_source_lookup (source, BW_APPLICATION_ID, TRUE) : NULL;
  g_autoptr (GSettingsBackend) backend = schema ? new_backend (schema) : NULL;
  if (!backend)
    return;
  self->store = g_settings_new_full (schema, backend, NULL);
  for (int i = 1; i < N_PROPS; i++) {
    const char *name = g_param_spec_get_name (properties[i]);
    if (g_settings_schema_has_key (schema, name))
      g_settings_bind (self->store, name, self, name, G_SETTINGS_BIND_DEFAULT);
  }
}

static void
bw_settings_init (BwSettings *self)
{
  for (int i = 1; i < N_PROPS; i++) {
    g_value_init (&self->value[i], G_PARAM_SPEC_VALUE_TYPE (properties[i]));
    g_param_value_set_default (properties[i], &self->value[i]);
  }
  bind_to_store (self);
}

BwSettings *
bw_settings_get (void)
{
  static BwSettings *settings;
  if (!settings)
    settings = g_object_new (BW_TYPE_SETTINGS, NULL);
  return settings;
}

gboolean
bw_settings_are_kept (BwSettings *self)
{
  g_return_val_if_fail (BW_IS_SETTINGS (self), FALSE);
  return self->store != NULL;
}

BwUnit
bw_settings_get_unit (BwSettings *self)
{
  g_return_val_if_fail (BW_IS_SETTINGS (self), BW_UNIT_MM);
  const char *units = g_value_get_string (&self->value[PROP_UNITS]);
  return g_strcmp0 (units, "inch") == 0 ? BW_UNIT_INCH : BW_UNIT_MM;
}

gboolean
bw_settings_get_flag (BwSettings *self, const char *name)
{
  gboolean flag = FALSE;
  g_object_get (self, name, &flag, NULL);
  return flag;
}

double
bw_settings_get_number (BwSettings *self, const char *name)
{
  double number = 0;
  g_object_get (self, name, &number, NULL);
  return number;
}

int
bw_settings_get_count (BwSettings *self, const char *name)
{
  int count = 0;
  g_object_get (self, name, &count, NULL);
  return count;
}

/* A menu choice between the words a string property may hold. */
static void
choose (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *name = g_action_get_name (G_ACTION (action));
  g_object_set (data, name, g_variant_get_string (parameter, NULL), NULL);
}

static void
show_choice (GObject *settings, GParamSpec *spec, gpointer action)
{
  g_autofree char *word = NULL;
  g_object_get (settings, g_param_spec_get_name (spec), &word, NULL);
  g_simple_action_set_state (action, g_variant_new_string (word));
}

static void
add_choice (BwSettings *self, GActionMap *map, GParamSpec *spec)
{
  const char *name = g_param_spec_get_name (spec);
  g_autofree char *word = NULL;
  g_object_get (self, name, &word, NULL);
  g_autoptr (GSimpleAction) action
      = g_simple_action_new_stateful (name, G_VARIANT_TYPE_STRING, g_variant_new_string (word));
  g_autofree char *detail = g_strconcat ("notify::", name, NULL);
  g_signal_connect (action, "activate", G_CALLBACK (choose), self);
  g_signal_connect_object (self, detail, G_CALLBACK (show_choice), action, 0);
  g_action_map_add_action (map, G_ACTION (action));
}

void
bw_settings_add_actions (BwSettings *self, GActionMap *map)
{
  static const int flags[]
      = { PROP_SHOW_LETTERS, PROP_LAMP_LIGHT,  PROP_AUTOSAVE,    PROP_KEEP_BACKUP,
          PROP_SHOW_GUIDE,   PROP_TRAY_FOLDED, PROP_STONE_FOLDED };
  g_return_if_fail (BW_IS_SETTINGS (self));
  add_choice (self, map, properties[PROP_UNITS]);
  add_choice (self, map, properties[PROP_APPEARANCE]);
  add_choice (self, map, properties[PROP_PAPER]);
  for (gsize i = 0; i < G_N_ELEMENTS (flags); i++) {
    const char *name = g_param_spec_get_name (properties[flags[i]]);
    g_autoptr (GPropertyAction) action = g_property_action_new (name, self, name);
    g_action_map_add_action (map, G_ACTION (action));
  }
}
