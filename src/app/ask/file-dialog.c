/* SPDX-License-Identifier: GPL-3.0-or-later */
/* GtkFileChooserNative behind two functions, so that a newer toolkit's dialog replaces it here. */
#include "config.h"

#include "app/ask/file-dialog.h"
#include "project/file/file-name.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define NAME_BYTES 255 /* as long as disks take */

typedef struct {
  GtkWindow *parent; /* borrowed: its end is the end of the question */
  GtkFileChooserNative *dialog;
  BwFileKind kind;
  BwFileChosen chosen;
  gpointer data;
} Asking;

static const struct {
  const char *name, *patterns, *mimes, *extension; /* several are divided by blanks */
} kinds[] = {
  [BW_FILES_PROJECT]
  = { N_ ("Bandwright projects"), "*.bandwright", "application/x-bandwright+json", ".bandwright" },
  [BW_FILES_CSV] = { N_ ("Comma-separated values"), "*.csv", "text/csv", ".csv" },
  [BW_FILES_PICTURE] = { N_ ("PNG pictures"), "*.png", "image/png", ".png" },
  [BW_FILES_MOVING] = { N_ ("WebP pictures"), "*.webp", "image/webp", ".webp" },
  [BW_FILES_PDF] = { N_ ("PDF documents"), "*.pdf", "application/pdf", ".pdf" },
  [BW_FILES_SVG] = { N_ ("SVG drawings"), "*.svg", "image/svg+xml", ".svg" },
  [BW_FILES_MODEL] = { N_ ("glTF models"), "*.glb", "model/gltf-binary", ".glb" },
  [BW_FILES_BOOK] = { N_ ("Books of Bandwright"), "*.json", "application/json", ".json" },
  [BW_FILES_MOTIF] = { N_ ("Motifs of beads"), "*.beads", "text/plain", ".beads" },
  [BW_FILES_GPL] = { N_ ("GIMP palettes"), "*.gpl", "application/x-gimp-palette", ".gpl" },
  [BW_FILES_CSS] = { N_ ("CSS colours"), "*.css", "text/css", ".css" },
  [BW_FILES_PALETTE]
  = { N_ ("Palettes (GIMP, CSS)"), "*.gpl *.css", "application/x-gimp-palette text/css", ".gpl" },
  [BW_FILES_DRAWN] = { N_ ("Pictures (PNG, JPEG, SVG)"), "*.png *.jpg *.jpeg *.svg",
                       "image/png image/jpeg image/svg+xml", ".png" },
};

/* Cuts a text between two characters so that it has at most so many bytes. */
static void
clip (char *text, gsize bytes)
{
  if (strlen (text) > bytes)
    *g_utf8_find_prev_char (text, text + bytes + 1) = '\0';
}

char *
bw_file_name_for (const char *title, BwFileKind kind)
{
  g_autofree char *name = g_strstrip (g_strdup (title ? title : ""));
  g_strdelimit (name, "/\\:*?\"<>|\n\r\t", '-');
  char *bare = name;
  while (*bare == '.')
    bare++;
  clip (bare, NAME_BYTES - strlen (kinds[kind].extension));
  return g_strconcat (*bare ? bare : _ ("Untitled"), kinds[kind].extension, NULL);
}

static GFile *
with_extension (GFile *file, BwFileKind kind)
{
  g_autofree char *name = g_file_get_basename (file);
  if (g_str_has_suffix (name, kinds[kind].extension))
    return g_object_ref (file);
  g_autofree char *full = g_strconcat (name, kinds[kind].extension, NULL);
  g_autoptr (GFile) folder = g_file_get_parent (file);
  return g_file_get_child (folder, full);
}

static gboolean
dialog_free (gpointer dialog)
{
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  return G_SOURCE_REMOVE;
}

/* The toolkit of version 4.8 still hears of files that change in the folder it shows while it takes
 * its rows down, and then uses one that is gone. Hidden, it hears of what was on its way already;
 * only then is it taken down. */
static void
asking_free (Asking *asking)
{
  g_signal_handlers_disconnect_by_data (asking->parent, asking);
  g_signal_handlers_disconnect_by_data (asking->dialog, asking);
  gtk_native_dialog_hide (GTK_NATIVE_DIALOG (asking->dialog));
  g_idle_add_full (G_PRIORITY_LOW, dialog_free, asking->dialog, NULL);
  g_free (asking);
}

static void
finish (Asking *asking, GFile *file)
{
  BwFileChosen chosen = asking->chosen;
  gpointer data = asking->data;
  asking_free (asking);
  chosen (file, data);
}

/* The dialog has asked about the name that was typed, not about the one the ending makes of it. */
static void
replace_answered (GtkDialog *question, int answer, Asking *asking)
{
  g_autoptr (GFile) file = g_object_ref (g_object_get_data (G_OBJECT (question), "file"));
  gtk_window_destroy (GTK_WINDOW (question));
  if (answer == GTK_RESPONSE_ACCEPT)
    finish (asking, file);
  else
    gtk_native_dialog_show (GTK_NATIVE_DIALOG (asking->dialog));
}

static void
ask_to_replace (Asking *asking, GFile *file)
{
  g_autofree char *name = bw_file_shown (file);
  GtkWidget *question = gtk_message_dialog_new (
      asking->parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("“%s” is there already. Replace it?"), name);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (question), "%s",
                                            _ ("What is in it now is lost."));
  gtk_dialog_add_button (GTK_DIALOG (question), _ ("_Cancel"), GTK_RESPONSE_CANCEL);
  GtkWidget *replace
      = gtk_dialog_add_button (GTK_DIALOG (question), _ ("_Replace"), GTK_RESPONSE_ACCEPT);
  gtk_widget_add_css_class (replace, "destructive-action");
  gtk_dialog_set_default_response (GTK_DIALOG (question), GTK_RESPONSE_CANCEL);
  g_object_set_data_full (G_OBJECT (question), "file", g_object_ref (file), g_object_unref);
  g_signal_connect (question, "response", G_CALLBACK (replace_answered), asking);
  gtk_window_present (GTK_WINDOW (question));
}

static void
responded (GtkNativeDialog *dialog, int response, gpointer data)
{
  Asking *asking = data;
  gboolean saving
      = gtk_file_chooser_get_action (GTK_FILE_CHOOSER (dialog)) == GTK_FILE_CHOOSER_ACTION_SAVE;
  if (response != GTK_RESPONSE_ACCEPT) {
    asking_free (asking);
    return;
  }
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autoptr (GFile) named = saving ? with_extension (file, asking->kind) : g_object_ref (file);
  if (!g_file_equal (named, file) && g_file_query_exists (named, NULL))
    ask_to_replace (asking, named);
  else
    finish (asking, named);
}

static void
add_filters (GtkFileChooser *chooser, BwFileKind kind)
{
  g_autoptr (GtkFileFilter) own = gtk_file_filter_new ();
  gtk_file_filter_set_name (own, _ (kinds[kind].name));
  g_auto (GStrv) patterns = g_strsplit (kinds[kind].patterns, " ", -1);
  g_auto (GStrv) mimes = g_strsplit (kinds[kind].mimes, " ", -1);
  for (char **pattern = patterns; *pattern; pattern++)
    gtk_file_filter_add_pattern (own, *pattern);
  for (char **mime = mimes; *mime; mime++)
    gtk_file_filter_add_mime_type (own, *mime);
  gtk_file_chooser_add_filter (chooser, own);
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

static GtkFileChooser *
ask (GtkWindow *parent, GtkFileChooserAction action, BwFileKind kind, BwFileChosen chosen,
     gpointer data)
{
  gboolean saving = action == GTK_FILE_CHOOSER_ACTION_SAVE;
  Asking *asking = g_new0 (Asking, 1);
  *asking
      = (Asking){ parent,
                  gtk_file_chooser_native_new (saving ? _ ("Save") : _ ("Open"), parent, action,
                                               saving ? _ ("_Save") : _ ("_Open"), _ ("_Cancel")),
                  kind, chosen, data };
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (asking->dialog), TRUE);
  add_filters (GTK_FILE_CHOOSER (asking->dialog), kind);
  g_signal_connect (asking->dialog, "response", G_CALLBACK (responded), asking);
  g_signal_connect_swapped (parent, "destroy", G_CALLBACK (asking_free), asking);
  return GTK_FILE_CHOOSER (asking->dialog);
}

void
bw_file_dialog_open (GtkWindow *parent, BwFileKind kind, BwFileChosen chosen, gpointer data)
{
  GtkFileChooser *chooser = ask (parent, GTK_FILE_CHOOSER_ACTION_OPEN, kind, chosen, data);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* Where a maker looks for what was saved; not where the program was started. Owned. */
static GFile *
usual_folder (void)
{
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  gboolean there = documents && g_file_test (documents, G_FILE_TEST_IS_DIR);
  return g_file_new_for_path (there ? documents : g_get_home_dir ());
}

void
bw_file_dialog_save (GtkWindow *parent, BwFileKind kind, const char *name, GFile *beside,
                     BwFileChosen chosen, gpointer data)
{
  GtkFileChooser *chooser = ask (parent, GTK_FILE_CHOOSER_ACTION_SAVE, kind, chosen, data);
  g_autoptr (GFile) folder = beside ? g_file_get_parent (beside) : usual_folder ();
  if (folder)
    gtk_file_chooser_set_current_folder (chooser, folder, NULL);
  gtk_file_chooser_set_current_name (chooser, name);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
