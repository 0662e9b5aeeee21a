/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The least a program with an OpenGL view can be: one window, one area, one colour. What the start
 * of the real program is measured against. */
#include <epoxy/gl.h>
#include <gtk/gtk.h>

static gboolean
render (GtkGLArea *area, GdkGLContext *context, gpointer data)
{
  glClearColor (0.2f, 0.5f, 0.3f, 1);
  glClear (GL_COLOR_BUFFER_BIT);
  return TRUE;
}

static void
activate (GtkApplication *application, gpointer data)
{
  GtkWidget *window = gtk_application_window_new (application);
  GtkWidget *area = gtk_gl_area_new ();
  g_signal_connect (area, "render", G_CALLBACK (render), NULL);
  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  gtk_window_set_child (GTK_WINDOW (window), area);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char *argv[])
{
  g_autoptr (GtkApplication) application
      = gtk_application_new ("io.github.bandwright.Bare", G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (activate), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
