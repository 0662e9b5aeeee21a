/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whoever shows a project listens to it, and must have stopped listening before anything of it
 * goes: that order is kept here, once for all. */
#include "editor/cloth/unrolled.h"

typedef struct {
  BwBandView view;
  char *told;
} BwUnrolledPrivate;

enum { STATUS, VIEW, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (BwUnrolled, bw_unrolled, GTK_TYPE_WIDGET)

BwBandView *
bw_unrolled_view (BwUnrolled *self)
{
  BwUnrolledPrivate *priv = bw_unrolled_get_instance_private (self);
  return &priv->view;
}

const char *
bw_unrolled_get_told (BwUnrolled *self)
{
  BwUnrolledPrivate *priv = bw_unrolled_get_instance_private (self);
  return priv->told;
}

void
bw_unrolled_tell (BwUnrolled *self, const char *words)
{
  BwUnrolledPrivate *priv = bw_unrolled_get_instance_private (self);
  if (g_strcmp0 (priv->told, words) == 0)
    return;
  g_free (priv->told);
  priv->told = g_strdup (words);
  g_signal_emit (self, signals[STATUS], 0, priv->told);
}

void
bw_unrolled_seen (BwUnrolled *self)
{
  g_signal_emit (self, signals[VIEW], 0);
}

static void
on_changed (BwUnrolled *self, guint what)
{
  BW_UNROLLED_GET_CLASS (self)->changed (self, what);
}

/* First deaf, then rid of what is half done: taking that back is a change too, and its news would
 * find a widget that is only half there. */
static void
leave_project (BwUnrolled *self)
{
  BwBandView *view = bw_unrolled_view (self);
  if (view->project == NULL)
    return;
  g_signal_handlers_disconnect_by_func (view->project, on_changed, self);
  BW_UNROLLED_GET_CLASS (self)->leave (self);
  g_clear_object (&view->project);
}

static void
take_project (BwUnrolled *self)
{
  BwBandView *view = bw_unrolled_view (self);
  leave_project (self);
  view->project = g_object_ref (bw_session_get_project (view->session));
  g_signal_connect_swapped (view->project, "changed", G_CALLBACK (on_changed), self);
  bw_band_view_spoil_faces (view);
  if (BW_UNROLLED_GET_CLASS (self)->taken != NULL)
    BW_UNROLLED_GET_CLASS (self)->taken (self);
  on_changed (self, BW_CHANGED_ALL);
}

static void
take_style (BwUnrolled *self)
{
  bw_band_view_take_style (bw_unrolled_view (self));
  BW_UNROLLED_GET_CLASS (self)->place (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
bw_unrolled_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (bw_unrolled_parent_class)->css_changed (widget, change);
  take_style (BW_UNROLLED (widget));
}

static void
bw_unrolled_system_setting_changed (GtkWidget *widget, GtkSystemSetting setting)
{
  GTK_WIDGET_CLASS (bw_unrolled_parent_class)->system_setting_changed (widget, setting);
  take_style (BW_UNROLLED (widget));
}

static void
bw_unrolled_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (bw_unrolled_parent_class)->root (widget);
  take_style (BW_UNROLLED (widget));
}

static void
bw_unrolled_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BW_UNROLLED_GET_CLASS (widget)->place (BW_UNROLLED (widget));
}

static void
bw_unrolled_dispose (GObject *object)
{
  BwUnrolled *self = BW_UNROLLED (object);
  BwBandView *view = bw_unrolled_view (self);
  if (view->session != NULL)
    g_signal_handlers_disconnect_by_data (view->session, self);
  leave_project (self);
  g_clear_object (&view->session);
  G_OBJECT_CLASS (bw_unrolled_parent_class)->dispose (object);
}

static void
bw_unrolled_finalize (GObject *object)
{
  BwUnrolledPrivate *priv = bw_unrolled_get_instance_private (BW_UNROLLED (object));
  bw_band_view_clear (&priv->view);
  g_free (priv->told);
  G_OBJECT_CLASS (bw_unrolled_parent_class)->finalize (object);
}

static void
bw_unrolled_class_init (BwUnrolledClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  object_class->dispose = bw_unrolled_dispose;
  object_class->finalize = bw_unrolled_finalize;
  widget_class->css_changed = bw_unrolled_css_changed;
  widget_class->system_setting_changed = bw_unrolled_system_setting_changed;
  widget_class->root = bw_unrolled_root;
  widget_class->size_allocate = bw_unrolled_size_allocate;
  signals[STATUS] = g_signal_new ("status", BW_TYPE_UNROLLED, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[VIEW] = g_signal_new ("view", BW_TYPE_UNROLLED, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
bw_unrolled_init (BwUnrolled *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  bw_band_view_init (bw_unrolled_view (self), widget);
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (gtk_widget_queue_draw), NULL);
}

void
bw_unrolled_show (BwUnrolled *self, BwSession *session)
{
  BwBandView *view = bw_unrolled_view (self);
  g_return_if_fail (BW_IS_SESSION (session) && view->session == NULL);
  view->session = g_object_ref (session);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (take_project), self);
  take_project (self);
  take_style (self);
}
