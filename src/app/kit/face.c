/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two style sheets: how things are laid out, always; and the face, which gives the theme's own
 * colour names our tints, so that every drawing that asks the theme gets them too. */
#include "config.h"

#include "app/kit/face.h"
#include "core/pattern/tint.h"

#include <string.h>

#define FOLDER "/io/github/bandwright/Bandwright/"
/* Above the layout, which speaks of the theme's names alone. */
#define PRIORITY_FACE (GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1)

typedef struct {
  GdkDisplay *display;
  GtkCssProvider *tints, *face;
  gboolean worn;
} Face;

/* What the tints are called, as a style sheet. */
static char *
tints_sheet (gboolean dark)
{
  GString *text = g_string_new (NULL);
  for (int i = 0; i < BW_N_TINTS; i++)
    g_string_append_printf (text, "@define-color bw_%s #%06x;\n", bw_tint_name (i),
                            bw_tint_srgb (i, dark));
  return g_string_free (text, FALSE);
}

static gboolean
is_high_contrast (GtkSettings *settings)
{
  g_autofree char *theme = NULL;
  g_object_get (settings, "gtk-theme-name", &theme, NULL);
  return theme && strstr (theme, "HighContrast");
}

static gboolean
is_dark (GtkSettings *settings)
{
  g_autofree char *theme = NULL;
  gboolean dark = FALSE;
  g_object_get (settings, "gtk-theme-name", &theme, "gtk-application-prefer-dark-theme", &dark,
                NULL);
  return dark || (theme && g_str_has_suffix (theme, "-dark"));
}

static GtkCssProvider *
add_sheet (GdkDisplay *display, const char *name, guint priority)
{
  GtkCssProvider *provider = gtk_css_provider_new ();
  g_autofree char *path = name ? g_strconcat (FOLDER, name, NULL) : NULL;
  if (path)
    gtk_css_provider_load_from_resource (provider, path);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider), priority);
  return provider;
}

static void
take_off (Face *face)
{
  gtk_style_context_remove_provider_for_display (face->display, GTK_STYLE_PROVIDER (face->face));
  gtk_style_context_remove_provider_for_display (face->display, GTK_STYLE_PROVIDER (face->tints));
  g_clear_object (&face->face);
  g_clear_object (&face->tints);
  face->worn = FALSE;
}

static void
wear (Face *face, gboolean dark)
{
  g_autofree char *tints = tints_sheet (dark);
  if (!face->worn) {
    face->tints = add_sheet (face->display, NULL, PRIORITY_FACE);
    face->face = add_sheet (face->display, "face.css", PRIORITY_FACE);
  }
  gtk_css_provider_load_from_data (face->tints, tints, -1);
  face->worn = TRUE;
}

static void
follow (Face *face, GParamSpec *what, GtkSettings *settings)
{
  if (!is_high_contrast (settings))
    wear (face, is_dark (settings));
  else if (face->worn)
    take_off (face);
}

static void
face_free (gpointer data, GClosure *closure)
{
  Face *face = data;
  g_clear_object (&face->face);
  g_clear_object (&face->tints);
  g_free (face);
}

void
bw_face_follow (GdkDisplay *display)
{
  GtkSettings *settings = gtk_settings_get_for_display (display);
  Face *face = g_new0 (Face, 1);
  GtkCssProvider *layout
      = add_sheet (display, "style.css", GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_object_unref (layout);
  face->display = display;
  g_signal_connect_data (settings, "notify::gtk-theme-name", G_CALLBACK (follow), face, face_free,
                         G_CONNECT_SWAPPED);
  g_signal_connect_swapped (settings, "notify::gtk-application-prefer-dark-theme",
                            G_CALLBACK (follow), face);
  follow (face, NULL, settings);
}
