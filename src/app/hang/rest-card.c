/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rest in words, and the band heights that would change it as buttons. */
#include "config.h"

#include "app/hang/hang-cards.h"

#include "app/kit/settings.h"
#include "app/kit/words.h"
#include "project/hang-words.h"

#include <glib/gi18n-lib.h>

struct _BwRestCard {
  BwCard parent_instance;
  GtkLabel *rest;
  GtkLabel *margin;
  GtkLabel *mass;
  GtkBox *heights;
  GtkButton *button[3];
  GtkLabel *wedge;
  GtkLabel *warnings;
  BwHangHeight height[3];
  int n_heights;
};

G_DEFINE_FINAL_TYPE (BwRestCard, bw_rest_card, BW_TYPE_CARD)

char *
bw_rest_words (const BwHang *hang)
{
  if (!hang->has_bail)
    return g_strdup (_ ("Without a bail it does not hang."));
  return bw_hang_sentence (hang->level ? BW_UP_LEVEL : hang->up, hang->tilt_deg);
}

char *
bw_rest_words_wedge (const BwWedge *wedge)
{
  if (wedge->thin_end == BW_THIN_NEITHER)
    return g_strdup (_ ("The stone is as thick above the band as below: nothing wedges it off."));
  const char *end = wedge->thin_end == BW_THIN_TIP ? _ ("tip") : _ ("base");
  if (wedge->slips)
    return g_strdup_printf (
        _ ("The stone thins by %.1f° towards the %s: the band may slip off that "
           "way."),
        fabs (wedge->alpha_deg), end);
  return g_strdup_printf (
      _ ("The stone thins by %.1f° towards the %s: the bed should hold that. It "
         "is an estimate; tug it over something soft."),
      fabs (wedge->alpha_deg), end);
}

/* Owned; NULL where no margin decides. */
static char *
margin_words (const BwHang *hang)
{
  if (!hang->has_margin)
    return NULL;
  g_autofree char *length = bw_card_length (fabs (hang->margin_mm), 1);
  if (hang->margin_mm < 0)
    return g_strdup_printf (
        _ ("The balance point lies %s beyond the flap’s edge, so the piece tips about it."),
        length);
  return g_strdup_printf (
      _ ("The balance point lies %s inside the flap’s edges: so much may still shift before the "
         "piece tips."),
      length);
}

static void
show_margin (BwRestCard *self, const BwHang *hang)
{
  g_autofree char *words = margin_words (hang);
  bw_label_set_words (self->margin, words ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->margin), words != NULL);
}

static const char *
want_words (BwWant want)
{
  switch (want) {
  case BW_WANT_LEVEL:
    return _ ("Level");
  case BW_WANT_TIP_DOWN:
    return _ ("Tip down");
  case BW_WANT_TIP_UP:
  default:
    return _ ("Tip up");
  }
}

/* Owned. */
static char *
height_words (const BwHangHeight *height, gboolean is_here)
{
  g_autofree char *bottom = bw_card_length (height->bottom_mm, 2);
  g_autofree char *hangs = bw_hang_words (height->up, height->tilt_deg);
  const char *want = want_words (height->want);
  if (!height->reached && is_here)
    return g_strdup_printf (_ ("%s: no other height comes nearer"), want);
  if (!height->reached)
    return g_strdup_printf (_ ("%s, as near as it gets: lower edge at %s (%s)"), want, bottom,
                            hangs);
  return g_strdup_printf (_ ("%s: lower edge at %s (%s)"), want, bottom, hangs);
}

static void
show_height (GtkButton *button, const BwHangHeight *height, double now_mm)
{
  gboolean is_here = fabs (height->bottom_mm - now_mm) < 1e-9;
  g_autofree char *words = height_words (height, is_here);
  bw_card_set_words (button, words);
  gtk_widget_set_sensitive (GTK_WIDGET (button), !is_here);
}

static void
show_heights (BwRestCard *self)
{
  BwProject *project = bw_card_get_project (BW_CARD (self));
  const BwDesign *design = bw_project_get_design (project);
  self->n_heights = bw_hang_suggest (self->height, design, bw_project_stone (project));
  gtk_widget_set_visible (GTK_WIDGET (self->heights), self->n_heights > 0);
  for (int i = 0; i < self->n_heights; i++)
    show_height (self->button[i], &self->height[i], design->band.bottom_mm);
}

static void
show_warnings (BwRestCard *self)
{
  g_auto (GStrv) warnings
      = bw_project_warnings_about (bw_card_get_project (BW_CARD (self)), BW_TOPIC_HANG,
                                   bw_settings_get_unit (bw_settings_get ()));
  g_autofree char *text = g_strjoinv ("\n", warnings);
  bw_label_set_words (self->warnings, text);
  gtk_widget_set_visible (GTK_WIDGET (self->warnings), *text != '\0');
}

static void
bw_rest_card_refresh (BwCard *card)
{
  BwRestCard *self = BW_REST_CARD (card);
  const BwHang *hang = bw_project_hang (bw_card_get_project (card));
  g_autofree char *rest = bw_rest_words (hang);
  g_autofree char *wedge = bw_rest_words_wedge (&hang->wedge);
  g_autofree char *mass
      = g_strdup_printf (_ ("%.1f g in all: stone %.1f g, band %.1f g, bed %.1f g, bail %.1f g."),
                         hang->mass_g, hang->stone_g, hang->band_g, hang->bed_g, hang->bail_g);
  bw_label_set_words (self->rest, rest);
  show_margin (self, hang);
  bw_label_set_words (self->mass, mass);
  bw_label_set_words (self->wedge, wedge);
  if (hang->wedge.slips)
    gtk_widget_add_css_class (GTK_WIDGET (self->wedge), "warning-text");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->wedge), "warning-text");
  show_heights (self);
  show_warnings (self);
}

static void
height_clicked (BwRestCard *self, GtkButton *button)
{
  for (int i = 0; i < self->n_heights; i++) {
    if (button != self->button[i])
      continue;
    BwDesign design = *bw_card_get_design (BW_CARD (self));
    design.band.bottom_mm = self->height[i].bottom_mm;
    bw_card_apply (BW_CARD (self), want_words (self->height[i].want), &design);
    return;
  }
}

static void
add_buttons (BwRestCard *self)
{
  for (int i = 0; i < 3; i++) {
    GtkWidget *button = gtk_button_new ();
    g_signal_connect_swapped (button, "clicked", G_CALLBACK (height_clicked), self);
    gtk_box_append (self->heights, button);
    self->button[i] = GTK_BUTTON (button);
  }
}

static void
bw_rest_card_class_init (BwRestCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  BW_CARD_CLASS (klass)->refresh = bw_rest_card_refresh;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/bandwright/Bandwright/rest-card.ui");
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, rest);
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, margin);
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, mass);
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, heights);
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, wedge);
  gtk_widget_class_bind_template_child (widget_class, BwRestCard, warnings);
}

static void
bw_rest_card_init (BwRestCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_buttons (self);
}
