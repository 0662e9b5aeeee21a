/* SPDX-License-Identifier: GPL-3.0-or-later */
/* It is there as long as the maker wants it: the setting is bound to it, and its button turns the
 * setting off. */
#include "config.h"

#include "app/shelf/shelf-guide.h"
#include "app/kit/settings.h"

#include <glib/gi18n-lib.h>

struct _BwShelfGuide {
  GtkWidget parent_instance;
  GtkFlowBox *steps;
};

G_DEFINE_FINAL_TYPE (BwShelfGuide, bw_shelf_guide, GTK_TYPE_WIDGET)

static const struct {
  const char *name, *words;
} steps[] = {
  { N_ ("1 · Measure"),
    N_ ("Choose New Stone and type what ruler and paper strip say into the sketch.") },
  { N_ ("2 · Draw"),
    N_ ("Ctrl+2. Take a colour from the tray and set beads, or lay a whole motif.") },
  { N_ ("3 · Hang"), N_ ("Ctrl+3. Choose the bail and see how the piece will hang.") },
  { N_ ("4 · Make"),
    N_ ("Ctrl+4. What to buy, the work sheet, and a helper for every row at the bench.") },
};

static GtkWidget *
label_new (const char *words, const char *style)
{
  GtkWidget *label = gtk_label_new (words);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  if (style)
    gtk_widget_add_css_class (label, style);
  return label;
}

static void
add_step (BwShelfGuide *self, gsize i)
{
  GtkWidget *child = gtk_flow_box_child_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_box_append (GTK_BOX (box), label_new (_ (steps[i].name), "guide-step"));
  gtk_box_append (GTK_BOX (box), label_new (_ (steps[i].words), NULL));
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), box);
  gtk_widget_set_focusable (child, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (steps[i].name), -1);
  gtk_flow_box_append (self->steps, child);
}

static void
put_away (BwShelfGuide *self)
{
  g_object_set (bw_settings_get (), "show-guide", FALSE, NULL);
}

static void
bw_shelf_guide_dispose (GObject *object)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (bw_shelf_guide_parent_class)->dispose (object);
}

static void
bw_shelf_guide_class_init (BwShelfGuideClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = bw_shelf_guide_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "shelfguide");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/shelf-guide.ui");
  gtk_widget_class_bind_template_child (widget_class, BwShelfGuide, steps);
  gtk_widget_class_bind_template_callback (widget_class, put_away);
}

static void
bw_shelf_guide_init (BwShelfGuide *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    add_step (self, i);
  g_object_bind_property (bw_settings_get (), "show-guide", self, "visible", G_BINDING_SYNC_CREATE);
}
