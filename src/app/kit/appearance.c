/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toolkit knows a dark variant but not the system's wish for it, which the desktop portal tells
 * (org.freedesktop.appearance, color-scheme: 0 no wish, 1 dark, 2 light). Without a portal "system"
 * is what the theme is by itself. */
#include "config.h"

#include "app/kit/appearance.h"
#include "app/kit/settings.h"

#include <gtk/gtk.h>

#define PORTAL_NAME "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define NAMESPACE "org.freedesktop.appearance"
#define KEY "color-scheme"

static gboolean system_is_dark;

/* Told what it has already the toolkit reads its theme anew: a twentieth of the start. */
static void
apply (void)
{
  GtkSettings *gtk = gtk_settings_get_default ();
  g_autofree char *appearance = NULL;
  gboolean was_dark = FALSE;
  g_object_get (bw_settings_get (), "appearance", &appearance, NULL);
  gboolean dark
      = g_str_equal (appearance, "dark") || (g_str_equal (appearance, "system") && system_is_dark);
  if (gtk)
    g_object_get (gtk, "gtk-application-prefer-dark-theme", &was_dark, NULL);
  if (gtk && was_dark != dark)
    g_object_set (gtk, "gtk-application-prefer-dark-theme", dark, NULL);
}

/* The value may come wrapped in one variant or, from older portals, in two. */
static void
take_scheme (GVariant *value)
{
  g_autoptr (GVariant) bare = g_variant_ref (value);
  while (g_variant_is_of_type (bare, G_VARIANT_TYPE_VARIANT)) {
    GVariant *inner = g_variant_get_variant (bare);
    g_variant_unref (bare);
    bare = inner;
  }
  if (g_variant_is_of_type (bare, G_VARIANT_TYPE_UINT32)) {
    system_is_dark = g_variant_get_uint32 (bare) == 1;
    apply ();
  }
}

static void
scheme_read (GObject *proxy, GAsyncResult *result, gpointer data)
{
  g_autoptr (GVariant) reply = g_dbus_proxy_call_finish (G_DBUS_PROXY (proxy), result, NULL);
  g_autoptr (GVariant) value = reply ? g_variant_get_child_value (reply, 0) : NULL;
  if (value)
    take_scheme (value);
}

static void
portal_said (GDBusProxy *proxy, const char *sender, const char *name, GVariant *parameters)
{
  const char *space, *key;
  g_autoptr (GVariant) value = NULL;
  if (!g_str_equal (name, "SettingChanged")
      || !g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &space, &key, &value);
  if (g_str_equal (space, NAMESPACE) && g_str_equal (key, KEY))
    take_scheme (value);
}

/* The proxy lives as long as the program. */
static void
portal_found (GObject *source, GAsyncResult *result, gpointer data)
{
  GDBusProxy *proxy = g_dbus_proxy_new_for_bus_finish (result, NULL);
  if (!proxy)
    return;
  g_autofree char *owner = g_dbus_proxy_get_name_owner (proxy);
  if (!owner) {
    g_object_unref (proxy);
    return;
  }
  g_signal_connect (proxy, "g-signal", G_CALLBACK (portal_said), NULL);
  g_dbus_proxy_call (proxy, "Read", g_variant_new ("(ss)", NAMESPACE, KEY), G_DBUS_CALL_FLAGS_NONE,
                     2000, NULL, scheme_read, NULL);
}

void
bw_appearance_follow (void)
{
  GtkSettings *gtk = gtk_settings_get_default ();
  if (gtk)
    g_object_get (gtk, "gtk-application-prefer-dark-theme", &system_is_dark, NULL);
  g_signal_connect (bw_settings_get (), "notify::appearance", G_CALLBACK (apply), NULL);
  apply ();
  g_dbus_proxy_new_for_bus (
      G_BUS_TYPE_SESSION,
      G_DBUS_PROXY_FLAGS_DO_NOT_LOAD_PROPERTIES | G_DBUS_PROXY_FLAGS_DO_NOT_AUTO_START, NULL,
      PORTAL_NAME, PORTAL_PATH, PORTAL_SETTINGS, NULL, portal_found, NULL);
}
