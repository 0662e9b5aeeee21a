/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a screen reader is told: walks the accessible tree of one program over the accessibility bus
 * and prints a line for each object in it, fields divided by tabs: depth, role, states, width,
 * height, name, description, text. A program of its own, because the one
 * that is looked at must be free to answer. */
#include <atspi/atspi.h>
#include <locale.h>
#include <string.h>

G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAccessible, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiStateSet, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiText, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiComponent, g_object_unref)

#define DEEPEST 60
#define TEXT_MOST 400

static const struct {
  AtspiStateType state;
  char letter;
} letters[] = {
  { ATSPI_STATE_FOCUSABLE, 'f' }, { ATSPI_STATE_FOCUSED, 'F' },   { ATSPI_STATE_EDITABLE, 'e' },
  { ATSPI_STATE_CHECKED, 'c' },   { ATSPI_STATE_SENSITIVE, 'S' },
};

static char *
states_of (AtspiAccessible *object)
{
  g_autoptr (AtspiStateSet) set = atspi_accessible_get_state_set (object);
  GString *text = g_string_new ("-");
  for (gsize i = 0; set && i < G_N_ELEMENTS (letters); i++)
    if (atspi_state_set_contains (set, letters[i].state))
      g_string_append_c (text, letters[i].letter);
  return g_string_free (text, FALSE);
}

/* Nothing that GTK 4.8 tells divides what is shown from what is not, but its size. Asked only of
 * what takes the keyboard: each question is a round trip. */
static void
print_size (AtspiAccessible *object, gboolean wanted)
{
  g_autoptr (AtspiComponent) component
      = wanted ? atspi_accessible_get_component_iface (object) : NULL;
  AtspiRect *extents
      = component ? atspi_component_get_extents (component, ATSPI_COORD_TYPE_WINDOW, NULL) : NULL;
  g_print ("\t%d\t%d", extents ? extents->width : 0, extents ? extents->height : 0);
  g_free (extents);
}

/* GTK 4.8 calls a status by its words, 4.18 by no name, as ARIA has it: there they are its text. */
static gboolean
tells_text (const char *role)
{
  return g_strcmp0 (role, "text") == 0 || g_strcmp0 (role, "status bar") == 0;
}

static char *
text_of (AtspiAccessible *object)
{
  g_autoptr (AtspiText) text = atspi_accessible_get_text_iface (object);
  int length = text ? MIN (atspi_text_get_character_count (text, NULL), TEXT_MOST) : 0;
  return length > 0 ? atspi_text_get_text (text, 0, length, NULL) : NULL;
}

/* On one line. */
static void
print_field (const char *text)
{
  g_autofree char *field = g_strdelimit (g_strdup (text ? text : ""), "\t\r\n", ' ');
  g_print ("\t%s", field);
}

static void
print_object (AtspiAccessible *object, int depth)
{
  g_autofree char *role = atspi_accessible_get_role_name (object, NULL);
  g_autofree char *states = states_of (object);
  g_autofree char *name = atspi_accessible_get_name (object, NULL);
  g_autofree char *description = atspi_accessible_get_description (object, NULL);
  g_autofree char *text = tells_text (role) ? text_of (object) : NULL;
  g_print ("%d", depth);
  print_field (role);
  print_field (states);
  print_size (object, strchr (states, 'f') != NULL);
  print_field (name);
  print_field (description);
  print_field (text);
  g_print ("\n");
}

static void
walk (AtspiAccessible *object, int depth)
{
  print_object (object, depth);
  int n = depth < DEEPEST ? atspi_accessible_get_child_count (object, NULL) : 0;
  for (int i = 0; i < n; i++) {
    g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (object, i, NULL);
    if (child)
      walk (child, depth + 1);
  }
}

static AtspiAccessible *
program_of (guint pid)
{
  g_autoptr (AtspiAccessible) desktop = atspi_get_desktop (0);
  int n = atspi_accessible_get_child_count (desktop, NULL);
  for (int i = 0; i < n; i++) {
    g_autoptr (AtspiAccessible) program = atspi_accessible_get_child_at_index (desktop, i, NULL);
    if (program && atspi_accessible_get_process_id (program, NULL) == pid)
      return g_steal_pointer (&program);
  }
  return NULL;
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  if (argc != 2) {
    g_printerr ("listener PID\n");
    return 2;
  }
  if (atspi_init () != 0) {
    g_printerr ("no accessibility bus\n");
    return 1;
  }
  g_autoptr (AtspiAccessible) program = program_of ((guint)g_ascii_strtoull (argv[1], NULL, 10));
  if (!program) {
    g_printerr ("the accessibility bus knows no such program\n");
    return 1;
  }
  walk (program, 0);
  return 0;
}
