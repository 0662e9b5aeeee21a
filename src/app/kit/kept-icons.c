/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/kit/kept-icons.h"

#define KEY "bw-kept-icons"
#define OWN "/io/github/bandwright/Bandwright/icons/16x16/actions"
#define ENDING ".symbolic.png"

#define SCALABLE_PX 48 /* the toolkit's size of a window's icon that is drawn at any */

static const int sizes_px[]
    = { 12, 16, 24 }; /* beside a term, on a button, in the strip of tools */
/* An image that comes to the screen has its icon loaded ahead, one that is drawn at once does not:
 * to the toolkit these are two icons. */
static const GtkIconLookupFlags ways[] = { GTK_ICON_LOOKUP_PRELOAD, 0 };

/* The toolkit's boxes for numbers, for what is looked for and for what is chosen, its windows and
 * its dialog of files. */
static const char *const of_toolkit[] = {
  "value-increase-symbolic",  "value-decrease-symbolic",  "system-search-symbolic",
  "edit-clear-symbolic",      "object-select-symbolic",   "window-close-symbolic",
  "window-maximize-symbolic", "window-minimize-symbolic", "pan-up-symbolic",
  "pan-down-symbolic",        "pan-start-symbolic",       "pan-end-symbolic",
  "edit-find-symbolic",       "list-add-symbolic",        "dialog-question-symbolic",
};

/* Of one theme, which owns it. */
typedef struct {
  GtkIconTheme *theme;
  GHashTable *shows;  /* GINT: how windows show their icons, each way packed by pack () */
  GPtrArray *held;    /* GtkIconPaintable */
  GPtrArray *before;  /* what was held; let go last, for much of it may be the same */
  GPtrArray *to_hold; /* GIcon */
  guint source;
} Kept;

static gpointer
pack (int scale, GtkTextDirection direction)
{
  return GINT_TO_POINTER (2 * scale + (direction == GTK_TEXT_DIR_RTL));
}

static GtkTextDirection
direction_of (int show)
{
  return show % 2 ? GTK_TEXT_DIR_RTL : GTK_TEXT_DIR_LTR;
}

static void
hold_as_shown (Kept *kept, GIcon *icon, int show)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sizes_px); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (ways); j++)
      g_ptr_array_add (kept->held,
                       gtk_icon_theme_lookup_by_gicon (kept->theme, icon, sizes_px[i], show / 2,
                                                       direction_of (show), ways[j]));
}

/* Every window and dialog that opens asks for the program's mark in each of its sizes, by its name
 * alone. */
static void
hold_mark (Kept *kept, int show)
{
  g_autofree int *sizes = gtk_icon_theme_get_icon_sizes (kept->theme, BW_APPLICATION_ID);
  for (const int *size = sizes; *size; size++)
    g_ptr_array_add (kept->held, gtk_icon_theme_lookup_icon (kept->theme, BW_APPLICATION_ID, NULL,
                                                             *size < 0 ? SCALABLE_PX : *size,
                                                             show / 2, direction_of (show), 0));
}

static void
add_own (GPtrArray *icons)
{
  g_auto (GStrv) files = g_resources_enumerate_children (OWN, 0, NULL);
  for (char **file = files; file && *file; file++)
    if (g_str_has_suffix (*file, ENDING)) {
      (*file)[strlen (*file) - strlen (ENDING)] = '\0';
      g_ptr_array_add (icons, g_themed_icon_new (*file));
    }
}

static void
add_toolkits (GPtrArray *icons)
{
  for (gsize i = 0; i < G_N_ELEMENTS (of_toolkit); i++) {
    g_ptr_array_add (icons, g_themed_icon_new_with_default_fallbacks (of_toolkit[i]));
    g_ptr_array_add (icons, g_themed_icon_new (of_toolkit[i]));
  }
}

/* One after the other: each is loaded on a thread, and a file that is to be opened waits for the
 * threads too. */
static gboolean
hold_next (gpointer data)
{
  Kept *kept = data;
  GHashTableIter iter;
  gpointer show;
  if (kept->to_hold->len == 0) {
    g_ptr_array_set_size (kept->before, 0);
    kept->source = 0;
    return G_SOURCE_REMOVE;
  }
  g_autoptr (GIcon) icon = g_ptr_array_steal_index_fast (kept->to_hold, 0);
  gboolean is_first = kept->held->len == 0;
  for (g_hash_table_iter_init (&iter, kept->shows); g_hash_table_iter_next (&iter, &show, NULL);) {
    if (is_first)
      hold_mark (kept, GPOINTER_TO_INT (show));
    hold_as_shown (kept, icon, GPOINTER_TO_INT (show));
  }
  return G_SOURCE_CONTINUE;
}

static void
hold_soon (Kept *kept)
{
  g_ptr_array_extend_and_steal (kept->before, g_steal_pointer (&kept->held));
  kept->held = g_ptr_array_new_with_free_func (g_object_unref);
  g_ptr_array_set_size (kept->to_hold, 0);
  add_own (kept->to_hold);
  add_toolkits (kept->to_hold);
  if (!kept->source)
    kept->source = g_idle_add_full (G_PRIORITY_LOW, hold_next, kept, NULL);
}

static void
kept_free (gpointer data)
{
  Kept *kept = data;
  g_clear_handle_id (&kept->source, g_source_remove);
  g_ptr_array_unref (kept->held);
  g_ptr_array_unref (kept->before);
  g_ptr_array_unref (kept->to_hold);
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
  kept->held = g_ptr_array_new_with_free_func (g_object_unref);
  kept->before = g_ptr_array_new_with_free_func (g_object_unref);
  kept->to_hold = g_ptr_array_new_with_free_func (g_object_unref);
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
