/* SPDX-License-Identifier: GPL-3.0-or-later */
/* GtkColorChooserDialog behind one function, so that a newer toolkit's dialog replaces it here. */
#include "config.h"

#include "app/ask/colour-dialog.h"

#include <math.h>

typedef struct {
  BwColourChosen chosen;
  gpointer data;
  GDestroyNotify free_data;
} Asking;

GdkRGBA
bw_colour_to_rgba (guint32 srgb)
{
  return (GdkRGBA){ (float)(srgb >> 16 & 255) / 255, (float)(srgb >> 8 & 255) / 255,
                    (float)(srgb & 255) / 255, 1 };
}

static guint32
channel (float value)
{
  return (guint32)lround (255 * CLAMP ((double)value, 0, 1));
}

guint32
bw_colour_from_rgba (const GdkRGBA *rgba)
{
  return channel (rgba->red) << 16 | channel (rgba->green) << 8 | channel (rgba->blue);
}

static void
responded (GtkDialog *dialog, int response, gpointer data)
{
  Asking *asking = data;
  if (response == GTK_RESPONSE_OK) {
    GdkRGBA rgba;
    gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (dialog), &rgba);
    asking->chosen (bw_colour_from_rgba (&rgba), asking->data);
  }
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
asking_free (gpointer data, GClosure *closure)
{
  Asking *asking = data;
  if (asking->free_data)
    asking->free_data (asking->data);
  g_free (asking);
}

void
bw_colour_dialog_ask (GtkWindow *parent, const char *title, guint32 srgb, BwColourChosen chosen,
                      gpointer data, GDestroyNotify free_data)
{
  GdkRGBA rgba = bw_colour_to_rgba (srgb);
  GtkWidget *dialog = gtk_color_chooser_dialog_new (title, parent);
  Asking *asking = g_new0 (Asking, 1);
  *asking = (Asking){ chosen, data, free_data };
  gtk_color_chooser_set_use_alpha (GTK_COLOR_CHOOSER (dialog), FALSE);
  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (dialog), &rgba);
  g_object_set (dialog, "show-editor", TRUE, NULL);
  gtk_window_set_modal (GTK_WINDOW (dialog), TRUE);
  g_signal_connect_data (dialog, "response", G_CALLBACK (responded), asking, asking_free, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}
