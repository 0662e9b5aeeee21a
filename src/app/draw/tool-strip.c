/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools lie in one row under the band, as on a mat, each with its name; where the window is too
 * narrow for names the symbols close up, and the tool in hand alone is named. The order is that of
 * the digit keys. */
#include "config.h"

#include "app/draw/tool-strip.h"
#include "app/kit/named-icon.h"
#include "app/kit/tip.h"

#include <glib/gi18n-lib.h>

#define GAP_PX 2   /* between buttons */
#define LOOSE_PX 7 /* what a button without its name may have beyond its symbol */

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
    N_ ("All beads of one colour that touch (5)") },
  { BW_TOOL_SWAP, "bandwright-swap-symbolic", N_ ("Recolour"),
    N_ ("Every bead of the colour pointed at, on the band or in what is selected (6)") },
  { BW_TOOL_ERASE, "bandwright-erase-symbolic", N_ ("Rub out"),
    N_ ("Back to the colour that most beads have (7)") },
  { BW_TOOL_PICK, "bandwright-pick-symbolic", N_ ("Pick"),
    N_ ("Pick up a colour from the band (0)") },
  { BW_TOOL_SELECT, "bandwright-select-symbolic", N_ ("Select"),
    N_ ("Select a block, drag what is selected; Control adds and copies (8)") },
  { BW_TOOL_SELECT_COLOUR, "bandwright-select-colour-symbolic", N_ ("Same colour"),
    N_ ("Select every bead of a colour; Shift only those that touch (9)") },
};

struct _BwToolStrip {
  GtkWidget parent_instance;
  BwSession *session;
  GtkWidget *button[G_N_ELEMENTS (tools)];
  GtkWidget *caption; /* names the tool in hand when the buttons are not named */
};

G_DEFINE_FINAL_TYPE (BwToolStrip, bw_tool_strip, GTK_TYPE_WIDGET)

static void
show_tool (BwToolStrip *self)
{
  BwToolKind kind = bw_session_get_tool (self->session);
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++)
    if (tools[i].kind == kind) {
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->button[i]), TRUE);
      gtk_label_set_text (GTK_LABEL (self->caption), _ (tools[i].name));
    }
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
  g_autofree char *tip = g_strdup_printf ("%s: %s", _ (tools[i].name), _ (tools[i].help));
  gtk_button_set_child (GTK_BUTTON (button), bw_named_icon_new (tools[i].icon, _ (tools[i].name)));
  bw_tip_set (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (tools[i].name), -1);
  /* The canvas keeps the keyboard, so that a piece in the air stays there. */
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_widget_add_css_class (button, "flat");
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (on_toggled), self);
  return button;
}

/* --- The row -----------------------------------------------------------------------------------
 */

static int
width_of (GtkWidget *child, gboolean named)
{
  int minimum, natural;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  return named ? natural : minimum;
}

/* All buttons side by side; the caption takes what is left. */
static int
width_of_row (BwToolStrip *self, gboolean named)
{
  int width = -GAP_PX;
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));
  for (; child; child = gtk_widget_get_next_sibling (child))
    if (child != self->caption && gtk_widget_should_layout (child))
      width += width_of (child, named) + GAP_PX;
  return width;
}

static int
count_buttons (BwToolStrip *self)
{
  int n = 0;
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));
  for (; child; child = gtk_widget_get_next_sibling (child))
    n += child != self->caption && !GTK_IS_SEPARATOR (child) && gtk_widget_should_layout (child);
  return n;
}

static int
height_of_row (BwToolStrip *self, gboolean named)
{
  int height = 0;
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));
  for (; child; child = gtk_widget_get_next_sibling (child)) {
    int least;
    if (!gtk_widget_should_layout (child))
      continue;
    gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width_of (child, named), &least, NULL,
                        NULL, NULL);
    height = MAX (height, least);
  }
  return height;
}

static GtkSizeRequestMode
bw_tool_strip_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
bw_tool_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  BwToolStrip *self = BW_TOOL_STRIP (widget);
  *minimum_baseline = *natural_baseline = -1;
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = width_of_row (self, FALSE);
    *natural = width_of_row (self, TRUE);
  } else {
    *minimum = *natural
        = height_of_row (self, for_size < 0 || for_size >= width_of_row (self, TRUE));
  }
}

/* One child at x where words run from the left, its mirror image where they run from the right. */
static void
place (BwToolStrip *self, GtkWidget *child, int x, int width, int whole, int height)
{
  gboolean mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  gtk_widget_size_allocate (
      child, &(GtkAllocation){ mirrored ? whole - x - width : x, 0, width, height }, -1);
}

static void
place_caption (BwToolStrip *self, gboolean named, int x, int whole, int height)
{
  int least = width_of (self->caption, FALSE), room = whole - x - 2 * GAP_PX;
  gboolean seen = !named && room >= least;
  gtk_widget_set_child_visible (self->caption, seen);
  if (seen)
    place (self, self->caption, x + 2 * GAP_PX, room, whole, height);
}

static void
bw_tool_strip_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwToolStrip *self = BW_TOOL_STRIP (widget);
  gboolean named = width >= width_of_row (self, TRUE);
  int spare = (width - width_of_row (self, named)) / MAX (1, count_buttons (self));
  int x = 0, loose = named ? CLAMP (spare, 0, 3 * LOOSE_PX) : CLAMP (spare / 2, 0, LOOSE_PX);
  GtkWidget *child = gtk_widget_get_first_child (widget);
  for (; child; child = gtk_widget_get_next_sibling (child)) {
    if (child == self->caption || !gtk_widget_should_layout (child))
      continue;
    int own = width_of (child, named) + (GTK_IS_SEPARATOR (child) ? 0 : loose);
    place (self, child, x, own, width, height);
    x += own + GAP_PX;
  }
  place_caption (self, named, x, width, height);
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
  widget_class->get_request_mode = bw_tool_strip_request_mode;
  widget_class->measure = bw_tool_strip_measure;
  widget_class->size_allocate = bw_tool_strip_allocate;
  gtk_widget_class_set_css_name (widget_class, "toolstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TOOLBAR);
}

static void
bw_tool_strip_init (BwToolStrip *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (tools); i++) {
    self->button[i] = new_button (self, i);
    if (i > 0)
      gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (self->button[i]),
                                   GTK_TOGGLE_BUTTON (self->button[0]));
    gtk_widget_set_parent (self->button[i], GTK_WIDGET (self));
  }
  self->caption = gtk_label_new (NULL);
  gtk_label_set_ellipsize (GTK_LABEL (self->caption), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (self->caption), 4);
  gtk_label_set_xalign (GTK_LABEL (self->caption), 0);
  gtk_widget_add_css_class (self->caption, "caption");
  gtk_widget_set_parent (self->caption, GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Tools"),
                                  -1);
}

void
bw_tool_strip_add (BwToolStrip *self, GtkWidget *child)
{
  g_return_if_fail (BW_IS_TOOL_STRIP (self) && GTK_IS_WIDGET (child));
  gtk_widget_insert_before (child, GTK_WIDGET (self), self->caption);
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
