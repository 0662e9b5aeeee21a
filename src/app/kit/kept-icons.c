/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/kept-icons.h"

#define KEY "bw-kept-icons"
#define OWN "/io/github/bandwright/Bandwright/icons/16x16/actions"
#define ENDING ".symbolic.png"

static const int sizes_px[] = { 16, 24 }; /* on a button, and in the strip of tools */
/* An image that comes to the screen has its icon loaded ahead, one that is drawn at once does not:
 * to the toolkit these are two icons. */
static const GtkIconLookupFlags ways[] = { GTK_ICON_LOOKUP_PRELOAD, 0 };

/* The toolkit's boxes for numbers, for what is looked for and for what is chosen, and its windows.
 */
static const char *const of_toolkit[] = {
  "value-increase-symbolic", "value-decrease-symbolic", "system-search-symbolic",
  "edit-clear-symbolic",     "object-select-symbolic",  "window-close-symbolic",
};

/* Of one theme, which owns it. */
typedef struct {
  GtkIconTheme *theme;
  GHashTable *shows; /* GINT: how windows show their icons, each way packed by pack () */
  GPtrArray *held;   /* GtkIconPaintable */
  guint source;
} Kept;

static gpointer
pack (int scale, GtkTextDirection direction)
{
  return GINT_TO_POINTER (2 * scale + (direction == GTK_TEXT_DIR_RTL));
}

static void
hold_icon (Kept *kept, GIcon *icon, int show)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes_px); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (ways); j++)
      g_ptr_array_add (kept->held, gtk_icon_theme_lookup_by_gicon (
                                       kept->theme, icon, sizes_px[i], show / 2,
                                       show % 2 ? GTK_TEXT_DIR_RTL : GTK_TEXT_DIR_LTR, ways[j]));
}

static void
hold_named (Kept *kept, const char *name, int show)
{
  g_autoptr (GIcon) icon = g_themed_icon_new (name);
  hold_icon (kept, icon, show);
}

static void
hold_own (Kept *kept, int show)
{
  g_auto (GStrv) files = g_resources_enumerate_children (OWN, 0, NULL);
  for (char **file = files; file && *file; file++)
    if (g_str_has_suffix (*file, ENDING)) {
      (*file)[strlen (*file) - strlen (ENDING)] = '\0';
      hold_named (kept, *file, show);
    }
}

static void
hold_toolkits (Kept *kept, int show)
{
  for (gsize i = 0; i < G_N_ELEMENTS (of_toolkit); i++) {
    g_autoptr (GIcon) icon = g_themed_icon_new_with_default_fallbacks (of_toolkit[i]);
    hold_icon (kept, icon, show);
    hold_named (kept, of_toolkit[i], show);
  }
}

/* What was held before is let go last: much of it may be the same. */
static gboolean
hold_all (gpointer data)
{
  Kept *kept = data;
  g_autoptr (GPtrArray) before = g_steal_pointer (&kept->held);
  GHashTableIter iter;
  gpointer show;
  kept->held = g_ptr_array_new_with_free_func (g_object_unref);
  for (g_hash_table_iter_init (&iter, kept->shows); g_hash_table_iter_next (&iter, &show, NULL);) {
    hold_own (kept, GPOINTER_TO_INT (show));
    hold_toolkits (kept, GPOINTER_TO_INT (show));
  }
  kept->source = 0;
  return G_SOURCE_REMOVE;
}

static void
hold_soon (Kept *kept)
{
  if (!kept->source)
    kept->source = g_idle_add_full (G_PRIORITY_LOW, hold_all, kept, NULL);
}

static void
kept_free (gpointer data)
{
  Kept *kept = data;
  g_clear_handle_id (&kept->source, g_source_remove);
  g_clear_pointer (&kept->held, g_ptr_array_unref);
  g_hash_table_unref (kept->shows);
  g_free (kept);
}

static Kept *
kept_of (GtkIconTheme *theme)
{
  Kept *kept = g_object_get_data (G_OBJECT (theme), KEY);
  if (kept)
    return kept;
  kept = g_new0 (Kept, 1);
  kept->theme = theme;
  kept->shows = g_hash_table_new (NULL, NULL);
  g_object_set_data_full (G_OBJECT (theme), KEY, kept, kept_free);
  g_signal_connect_swapped (theme, "changed", G_CALLBACK (hold_soon), kept);
  return kept;
}

static void
follow (GtkWidget *window)
{
  Kept *kept = kept_of (gtk_icon_theme_get_for_display (gtk_widget_get_display (window)));
  if (g_hash_table_add (kept->shows, pack (gtk_widget_get_scale_factor (window),
                                           gtk_widget_get_direction (window))))
    hold_soon (kept);
}

static void
painted (GtkWidget *window, GdkFrameClock *clock)
{
  g_signal_handlers_disconnect_by_func (clock, G_CALLBACK (painted), window);
  follow (window);
  g_signal_connect (window, "notify::scale-factor", G_CALLBACK (follow), NULL);
  g_signal_connect (window, "direction-changed", G_CALLBACK (follow), NULL);
}

static void
mapped (GtkWidget *window)
{
  g_signal_handlers_disconnect_by_func (window, G_CALLBACK (mapped), NULL);
  g_signal_connect_object (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted),
                           window, G_CONNECT_SWAPPED);
}

void
bw_kept_icons_follow (GtkWidget *window)
{
  g_signal_connect (window, "map", G_CALLBACK (mapped), NULL);
}
