/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Symbols take little room beside the canvas; the words are in the tips and for those who listen.
 * The order is that of the digit keys. */
#include "config.h"

#include "app/draw/tool-strip.h"

#include <glib/gi18n-lib.h>

#define ACROSS 2

static const struct {
  BwToolKind kind;
  const char *icon, *name, *help;
} tools[] = {
  { BW_TOOL_BEAD, "bandwright-bead-symbolic", N_ ("Bead"), N_ ("Lay bead by bead (1)") },
  { BW_TOOL_LINE, "bandwright-line-symbolic", N_ ("Line"),
    N_ ("A line from bead to bead; Shift keeps it straight (2)") },
  { BW_TOOL_RECTANGLE, "bandwright-rectangle-symbolic", N_ ("Block"),
    N_ ("A filled block; Shift keeps it square (3)") },
  { BW_TOOL_FRAME, "bandwright-frame-symbolic", N_ ("Frame"),
    N_ ("The outline of a block; Shift keeps it square (4)") },
  { BW_TOOL_FLOOD, "bandwright-flood-symbolic", N_ ("Flood"),
    N_ ("All beads of one colour that hang together (5)") },
  { BW_TOOL_SWAP, "bandwright-swap-symbolic", N_ ("Recolour"),
    N_ ("Every bead of the colour pointed at, on the band or in what is selected (6)") },
  { BW_TOOL_ERASE, "bandwright-erase-symbolic", N_ ("Rub out"),
    N_ ("Back to the colour that most beads have (7)") },
  { BW_TOOL_PICK, "bandwright-pick-symbolic", N_ ("Pick"),
    N_ ("Pick up a colour from the band (0)") },
  { BW_TOOL_SELECT, "bandwright-select-symbolic", N_ ("Select"),
    N_ ("Select a block, drag what is selected; Control adds and copies (8)") },
  { BW_TOOL_SELECT_COLOUR, "bandwright-select-colour-symbolic", N_ ("Select a colour"),
    N_ ("Select every bead of a colour; Shift only those that hang together (9)") },
};

struct _BwToolStrip {
  GtkWidget parent_instance;
  BwSession *session;
  GtkWidget *button[G_N_ELEMENTS (tools)];
};

G_DEFINE_FINAL_TYPE (BwToolStrip, bw_tool_strip, GTK_TYPE_WIDGET)

static void
show_tool (BwToolStrip *self)
{
  BwToolKind kind = bw_session_get_tool (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++)
    if (tools[i].kind == kind)
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->button[i]), TRUE);
}

static void
on_toggled (BwToolStrip *self, GtkToggleButton *button)
{
  if (self->session == NULL || !gtk_toggle_button_get_active (button))
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++)
    if (self->button[i] == GTK_WIDGET (button))
      bw_session_set_tool (self->session, tools[i].kind);
}

static GtkWidget *
new_button (BwToolStrip *self, gsize i)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *image = gtk_image_new_from_icon_name (tools[i].icon);
  g_autofree char *tip = g_strdup_printf ("%s: %s", _ (tools[i].name), _ (tools[i].help));
  gtk_button_set_child (GTK_BUTTON (button), image);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (tools[i].name), -1);
  /* The canvas keeps the keyboard, so that a piece in the air stays there. */
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_add_css_class (button, "flat");
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (on_toggled), self);
  return button;
}

static void
bw_tool_strip_dispose (GObject *object)
{
  BwToolStrip *self = BW_TOOL_STRIP (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (bw_tool_strip_parent_class)->dispose (object);
}

static void
bw_tool_strip_class_init (BwToolStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_tool_strip_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "toolstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TOOLBAR);
}

static void
bw_tool_strip_init (BwToolStrip *self)
{
  GtkWidget *grid = gtk_grid_new (), *scroller = gtk_scrolled_window_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++) {
    self->button[i] = new_button (self, i);
    if (i > 0)
      gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (self->button[i]),
                                   GTK_TOGGLE_BUTTON (self->button[0]));
    gtk_grid_attach (GTK_GRID (grid), self->button[i], (int)i % ACROSS, (int)i / ACROSS, 1, 1);
  }
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), grid);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Tools"),
                                  -1);
}

void
bw_tool_strip_bind (BwToolStrip *self, BwSession *session)
{
  g_return_if_fail (BW_IS_TOOL_STRIP (self) && self->session == NULL);
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "hand-changed", G_CALLBACK (show_tool), self,
                           G_CONNECT_SWAPPED);
  show_tool (self);
}
