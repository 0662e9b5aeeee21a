/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget round the picture. It keeps the scene in step with the project by doing the least that
 * a change asks for (colours of the beads that changed, or the whole scene), draws only when
 * something changed, and keeps everything on the GPU between realize and unrealize alone. */
#include "config.h"

#include "preview/view/stone-view.h"

#include "preview/gl/gl-picture.h"
#include "preview/picture/drawn.h"
#include "preview/picture/played-needle.h"
#include "preview/scene/facing.h"
#include "preview/scene/played.h"
#include "preview/view/view-ground.h"
#include "preview/view/view-input.h"
#include "preview/view/view-marks.h"
#include "preview/view/view-motion.h"
#include "preview/view/view-rest.h"
#include "project/hang-words.h"
#include <epoxy/gl.h>
#include <glib/gi18n-lib.h>

struct _BwStoneView {
  GtkWidget parent;
  BwSession *session;
  BwProject *project; /* the one the signals are connected to */

  GtkWidget *area;      /* a GtkGLArea; NULL when drawn */
  BwRenderer *renderer; /* these two only while the area is realized */
  BwGlPicture *picture;
  gboolean es;
  BwDrawn *drawn; /* the picture where there is no OpenGL */

  BwScene *scene;
  gboolean scene_stale;   /* must be built anew */
  gboolean colours_stale; /* every bead must be coloured anew */
  gboolean cells_stale;   /* the beads that were set must be */
  guint64 seen;           /* of those, see bw_project_touched() */
  char *mineral;          /* that the scene's stone is of */
  gboolean upload_stale;  /* the renderer has not seen the scene */
  gboolean bail_stale;    /* nor, of one it has seen, the bail */

  BwViewRest rest;
  BwViewMotion motion;
  BwViewInput input;
  int free_below; /* logical pixels that the piece keeps clear of */
  BwCamera drawn_from;
  BwGlPace pace; /* that the picture is being bettered for */
  guint describe_source, refine_source;
};

G_DEFINE_FINAL_TYPE (BwStoneView, bw_stone_view, GTK_TYPE_WIDGET)

/* The description is for ears: it waits until turning has come to rest. */
#define DESCRIBE_AFTER_MS 400
/* A plain picture is followed by a fine one when nothing moves for so long, and that by a smooth
 * one. */
#define REFINE_AFTER_MS 130
#define REST_AFTER_MS 350

static void
build_scene (BwStoneView *self)
{
  gboolean by_fit = bw_session_get_colour_by_fit (self->session);
  g_clear_pointer (&self->scene, bw_scene_free);
  self->scene = bw_scene_new (self->project, by_fit);
  self->scene->woven = bw_session_get_woven (self->session);
  self->scene->shown = TRUE;
  if (self->scene->woven > 0 || bw_project_has_trial (self->project))
    bw_scene_recolour (self->scene, self->project, by_fit, NULL);
  g_free (self->mineral);
  self->mineral = g_strdup (bw_project_get_mineral (self->project));
  bw_view_rest_take_scene (&self->rest, self->scene, bw_session_get_at_rest (self->session));
  self->upload_stale = TRUE;
  bw_drawn_spoil (self->drawn);
}

/* A bail that is dragged is all that changes; FALSE when there is more to it. */
static gboolean
follow_bail (BwStoneView *self)
{
  if (!self->scene || self->colours_stale || !bw_project_in_step (self->project)
      || !bw_scene_follow_bail (self->scene, self->project))
    return FALSE;
  bw_view_rest_take_scene (&self->rest, self->scene, bw_session_get_at_rest (self->session));
  self->bail_stale = TRUE;
  bw_drawn_spoil (self->drawn);
  return TRUE;
}

/* told: the beads that were set, NULL when any may be another. */
static void
recolour (BwStoneView *self, const GArray *told)
{
  g_autoptr (GArray) changed = g_array_new (FALSE, FALSE, sizeof (int));
  self->scene->woven = bw_session_get_woven (self->session);
  if (told)
    bw_scene_recolour_beads (self->scene, self->project, told, changed);
  else
    bw_scene_recolour (self->scene, self->project, bw_session_get_colour_by_fit (self->session),
                       changed);
  if (changed->len > 0 && !self->area)
    bw_drawn_spoil_beads (self->drawn, (const int *)changed->data, (int)changed->len);
  if (changed->len == 0 || !self->renderer || self->upload_stale)
    return;
  gtk_gl_area_make_current (GTK_GL_AREA (self->area));
  bw_renderer_update_beads (self->renderer, self->scene, (const int *)changed->data,
                            (int)changed->len);
  bw_gl_picture_spoil_beads (self->picture, (const int *)changed->data, (int)changed->len);
}

static BwViewGround
ground_of (BwStoneView *self)
{
  return bw_view_ground (GTK_WIDGET (self), bw_session_get_light (self->session));
}

/* What lies behind the piece, and what it keeps clear of: controls, and large words under it. */
static void
place_scene (BwStoneView *self)
{
  int height = MAX (gtk_widget_get_height (GTK_WIDGET (self)), 1);
  BwViewGround ground = ground_of (self);
  gboolean dark = bw_view_ground_is_dark (GTK_WIDGET (self), &ground);
  int kept = self->free_below;
  if (self->rest.hung && (bw_session_get_layers (self->session) & BW_LAYER_BALANCE))
    kept += bw_view_marks_extra (GTK_WIDGET (self), self->scene,
                                 gtk_widget_get_width (GTK_WIDGET (self)));
  float below = CLAMP ((float)kept / (float)height, 0, 0.6f);
  if (self->picture && (self->scene->on_dark != dark || self->scene->free_below != below))
    bw_gl_picture_spoil (self->picture);
  self->scene->on_dark = dark;
  self->scene->free_below = below;
}

/* Beads come and go, and with them what they hide. */
static void
follow_played (BwStoneView *self)
{
  int played = bw_session_get_played (self->session);
  if (self->scene->played == played)
    return;
  bw_scene_play (self->scene, played);
  bw_drawn_spoil (self->drawn);
  if (self->picture)
    bw_gl_picture_spoil (self->picture);
}

static void bring_up (BwStoneView *self);

/* The scene as it is due now. */
static BwScene *
scene_of (BwStoneView *self)
{
  bring_up (self);
  follow_played (self);
  place_scene (self);
  return self->scene;
}

static void
bring_up (BwStoneView *self)
{
  if (!self->scene)
    self->scene_stale = TRUE;
  if (!self->scene_stale && !self->colours_stale && !self->cells_stale)
    return;
  g_autoptr (GArray) beads = g_array_new (FALSE, FALSE, sizeof (BwBeadOf));
  gboolean told = bw_project_touched (self->project, &self->seen, beads);
  if (self->scene_stale && !follow_bail (self))
    build_scene (self);
  else if (!self->scene_stale)
    recolour (self, told && !self->colours_stale ? beads : NULL);
  self->scene_stale = self->colours_stale = self->cells_stale = FALSE;
}

const BwScene *
bw_stone_view_get_scene (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), NULL);
  return scene_of (self);
}

guint64
bw_stone_view_uploaded (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), 0);
  if (!self->area)
    return bw_drawn_beads_painted (self->drawn);
  return self->renderer ? bw_renderer_uploaded (self->renderer) : 0;
}

BwCamera
bw_stone_view_get_camera (BwStoneView *self)
{
  return bw_view_rest_camera (&self->rest, bw_session_get_camera (self->session));
}

static void
redraw (BwStoneView *self)
{
  if (self->area)
    gtk_gl_area_queue_render (GTK_GL_AREA (self->area));
  else
    gtk_widget_queue_draw (GTK_WIDGET (self));
}

static int
hovered (BwStoneView *self)
{
  gboolean in_bail;
  int row, column;
  bw_session_get_hover (self->session, &in_bail, &row, &column);
  const BwScene *scene = scene_of (self);
  int bead = row ? bw_scene_bead_index (scene, in_bail, row, column) : -1;
  return bead >= 0 && bw_played_has (scene, bead) ? bead : -1;
}

/* Words for a screen reader: what is seen from where, and what is pointed at. */
static char *
description (BwStoneView *self)
{
  BwCamera camera = bw_session_get_camera (self->session);
  g_autoptr (GString) words = g_string_new (NULL);

  gboolean in_bail;
  int row, column;
  /* Translators: the angles from which the stone is looked at. */
  g_string_append_printf (words, _ ("Seen from %.0f° round, %.0f° above, enlarged %.1f times."),
                          camera.turn_deg, camera.tip_deg, camera.zoom);
  if (self->rest.hung) {
    g_autofree char *tilt = bw_hang_sentence (self->scene->rest.up, self->scene->rest.tilt_deg);
    g_string_append_printf (words, " %s", tilt);
  }
  bw_session_get_hover (self->session, &in_bail, &row, &column);
  if (row) {
    g_string_append_c (words, ' ');
    g_string_append_printf (
        words, in_bail ? _ ("Bail, row %d, column %d.") : _ ("Band, row %d, column %d."), row,
        column);
  }
  return g_string_free (g_steal_pointer (&words), FALSE);
}

static gboolean
describe (gpointer data)
{
  BwStoneView *self = data;
  g_autofree char *words = description (self);
  self->describe_source = 0;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words,
                                  -1);
  return G_SOURCE_REMOVE;
}

static void
view_changed (BwStoneView *self)
{
  gboolean by_fit = bw_session_get_colour_by_fit (self->session);
  if (self->scene
      && (self->scene->colour_by_fit != by_fit
          || self->scene->woven != bw_session_get_woven (self->session)))
    self->colours_stale = TRUE;
  if (!self->describe_source)
    self->describe_source = g_timeout_add (DESCRIBE_AFTER_MS, describe, self);
  bw_view_rest_follow (&self->rest, bw_session_get_at_rest (self->session),
                       bw_session_get_camera (self->session));
  redraw (self);
}

static void
project_changed (BwStoneView *self, guint what)
{
  gboolean by_fit = bw_session_get_colour_by_fit (self->session);
  gboolean stone = (what & BW_CHANGED_TITLE)
                   && g_strcmp0 (self->mineral, bw_project_get_mineral (self->project)) != 0;
  if ((what & BW_CHANGED_SHAPE) || stone)
    self->scene_stale = TRUE;
  else if ((what & BW_CHANGED_TRAY) || (by_fit && (what & BW_CHANGED_PROGRESS)))
    self->colours_stale = TRUE;
  else if (what & BW_CHANGED_CELLS)
    self->cells_stale = TRUE;
  else
    return;
  redraw (self);
}

/* What was left out while a value was dragged comes when it is let go. */
static void
step_ended (BwStoneView *self)
{
  if (!self->scene || !self->scene->lacks_thread || bw_project_in_step (self->project))
    return;
  self->scene_stale = TRUE;
  redraw (self);
}

static void
drop_project (BwStoneView *self)
{
  if (self->project)
    g_signal_handlers_disconnect_by_data (self->project, self);
  g_clear_object (&self->project);
}

static void
other_project (BwStoneView *self)
{
  drop_project (self);
  self->project = g_object_ref (bw_session_get_project (self->session));
  g_signal_connect_swapped (self->project, "changed", G_CALLBACK (project_changed), self);
  g_signal_connect_swapped (self->project, "history", G_CALLBACK (step_ended), self);
  self->scene_stale = TRUE;
  redraw (self);
}

/* A context of one kind, realized and new enough; NULL when it cannot be had. */
static GdkGLContext *
context_of (BwStoneView *self, gboolean es)
{
  GdkSurface *surface = gtk_native_get_surface (gtk_widget_get_native (GTK_WIDGET (self)));
  g_autoptr (GdkGLContext) context = gdk_surface_create_gl_context (surface, NULL);
  if (!context)
    return NULL;
  gdk_gl_context_set_allowed_apis (context, es ? GDK_GL_API_GLES : GDK_GL_API_GL);
  gdk_gl_context_set_required_version (context, 3, es ? 0 : 3);
  if (!gdk_gl_context_realize (context, NULL))
    return NULL;
  gdk_gl_context_make_current (context);
  int version = epoxy_gl_version ();
  gdk_gl_context_clear_current ();
  return version >= (es ? 30 : 33) ? g_steal_pointer (&context) : NULL;
}

/* Desktop OpenGL first, OpenGL ES when that fails. */
static GdkGLContext *
create_context (GtkGLArea *area, BwStoneView *self)
{
  GdkGLContext *context = NULL;
  for (int es = 0; es < 2 && !context; es++) {
    context = context_of (self, es);
    self->es = es;
  }
  return context;
}

static gboolean
draw_instead (gpointer data)
{
  BwStoneView *self = data;
  g_clear_pointer (&self->area, gtk_widget_unparent);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

/* Runs after GtkGLArea's own handler. A widget cannot be taken out while it is being realized. */
static void
area_realized (GtkGLArea *area, BwStoneView *self)
{
  g_autoptr (GError) error = NULL;
  gtk_gl_area_make_current (area);
  if (!gtk_gl_area_get_error (area))
    self->renderer = bw_renderer_new (&error);
  self->upload_stale = TRUE;
  if (self->renderer) {
    self->picture = bw_gl_picture_new ();
    return;
  }
  if (error)
    g_message ("%s", error->message);
  g_idle_add_full (G_PRIORITY_HIGH, draw_instead, g_object_ref (self), g_object_unref);
}

static void
area_unrealized (GtkGLArea *area, BwStoneView *self)
{
  gtk_gl_area_make_current (area);
  if (gtk_gl_area_get_error (area))
    return;
  g_clear_pointer (&self->renderer, bw_renderer_free);
  g_clear_pointer (&self->picture, bw_gl_picture_free);
}

/* Something is due that the next frame will show: until then nothing is to be bettered. */
static gboolean
is_behind (const BwStoneView *self)
{
  return self->scene_stale || self->colours_stale || self->cells_stale || self->upload_stale
         || self->bail_stale || self->rest.stance_stale || bw_view_rest_is_swinging (&self->rest);
}

/* A strip at a time, when no event and no frame waits. */
static gboolean
refine (gpointer data)
{
  BwStoneView *self = data;
  BwGlRefined refined = BW_GL_REFINED_NOTHING;
  gtk_gl_area_make_current (GTK_GL_AREA (self->area));
  if (self->renderer && !is_behind (self))
    refined = bw_gl_picture_refine (self->picture, self->renderer, self->scene, self->pace);
  if (refined == BW_GL_REFINED_STRIP)
    return G_SOURCE_CONTINUE;
  self->refine_source = 0;
  if (refined == BW_GL_REFINED_PICTURE)
    gtk_gl_area_queue_render (GTK_GL_AREA (self->area));
  return G_SOURCE_REMOVE;
}

static gboolean
begin_to_refine (gpointer data)
{
  BwStoneView *self = data;
  self->refine_source = g_idle_add_full (G_PRIORITY_LOW, refine, self, NULL);
  return G_SOURCE_REMOVE;
}

/* Another picture is sure to follow while the eye moves or a number is being dragged. */
static gboolean
is_moving (BwStoneView *self, BwCamera camera)
{
  BwCamera last = self->drawn_from;
  self->drawn_from = camera;
  gboolean first = last.zoom == 0;
  gboolean turned = camera.turn_deg != last.turn_deg || camera.tip_deg != last.tip_deg
                    || camera.zoom != last.zoom;
  return (turned && !first) || bw_view_rest_is_swinging (&self->rest)
         || ((self->upload_stale || self->bail_stale) && bw_project_in_step (self->project));
}

/* What is plain becomes fine, at once where nothing moves; what is fine becomes smooth. */
static void
refine_later (BwStoneView *self, gboolean moving)
{
  gboolean plain = bw_gl_picture_is_plain (self->picture);
  self->pace = plain ? BW_GL_STILL : BW_GL_AT_REST;
  if (plain && !moving)
    begin_to_refine (self);
  else
    self->refine_source
        = g_timeout_add (plain ? REFINE_AFTER_MS : REST_AFTER_MS, begin_to_refine, self);
}

static void
draw_picture (BwStoneView *self, const BwScene *scene)
{
  int scale = gtk_widget_get_scale_factor (self->area);
  BwGlShot shot = { .camera = bw_stone_view_get_camera (self),
                    .layers = bw_session_get_layers (self->session),
                    .light = bw_session_get_light (self->session),
                    .hover = hovered (self),
                    .width = gtk_widget_get_width (self->area) * scale,
                    .height = gtk_widget_get_height (self->area) * scale,
                    .scale = (float)scale };
  gboolean moving = is_moving (self, shot.camera);
  if (self->upload_stale)
    bw_renderer_set_scene (self->renderer, scene);
  else if (self->bail_stale)
    bw_renderer_follow_bail (self->renderer, scene);
  else if (self->rest.stance_stale)
    bw_renderer_update_cord (self->renderer, scene);
  if (self->upload_stale || self->bail_stale || self->rest.stance_stale)
    bw_gl_picture_spoil (self->picture);
  self->upload_stale = self->bail_stale = self->rest.stance_stale = FALSE;
  g_clear_handle_id (&self->refine_source, g_source_remove);
  if (!bw_gl_picture_draw (self->picture, self->renderer, scene, &shot, BW_GL_MOVING))
    refine_later (self, moving);
}

static gboolean
render (GtkGLArea *area, GdkGLContext *context, BwStoneView *self)
{
  if (!self->renderer)
    return FALSE;
  draw_picture (self, scene_of (self));
  return TRUE;
}

static void
add_area (BwStoneView *self)
{
  self->area = gtk_gl_area_new ();
  gtk_gl_area_set_has_depth_buffer (GTK_GL_AREA (self->area), TRUE);
  /* Whenever the toolkit shows the area anew it takes another framebuffer, and what that holds is
   * an older picture or none: it must be filled each time. Where nothing changed that is a copy. */
  gtk_gl_area_set_auto_render (GTK_GL_AREA (self->area), TRUE);
  g_signal_connect (self->area, "create-context", G_CALLBACK (create_context), self);
  g_signal_connect_after (self->area, "realize", G_CALLBACK (area_realized), self);
  g_signal_connect (self->area, "unrealize", G_CALLBACK (area_unrealized), self);
  g_signal_connect (self->area, "render", G_CALLBACK (render), self);
  gtk_widget_set_can_target (self->area, FALSE);
  gtk_widget_set_parent (self->area, GTK_WIDGET (self));
}

static void
draw_by_hand (BwStoneView *self, GtkSnapshot *snapshot, int width, int height)
{
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  const BwScene *scene = scene_of (self);
  if (self->rest.stance_stale)
    bw_drawn_spoil (self->drawn);
  self->rest.stance_stale = FALSE;
  bw_drawn_paint (self->drawn, cr, scene, bw_stone_view_get_camera (self),
                  bw_session_get_layers (self->session), bw_session_get_light (self->session),
                  hovered (self), width, height, gtk_widget_get_scale_factor (GTK_WIDGET (self)));
  cairo_destroy (cr);
}

/* A ring inside the edge, in the theme's own colour for it. */
static void
draw_focus (BwStoneView *self, GtkSnapshot *snapshot, int width, int height)
{
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (self));
  const float wide[4] = { 2, 2, 2, 2 };
  BwViewGround ground = ground_of (self);
  GskRoundedRect ring;
  GdkRGBA colour;
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT (2, 2, (float)MAX (width - 4, 0), (float)MAX (height - 4, 0));
  if (!gtk_style_context_lookup_color (style, "accent_color", &colour)
      && !gtk_style_context_lookup_color (style, "theme_selected_bg_color", &colour))
    gtk_style_context_get_color (style, &colour);
  bw_view_ground_mark (&ground, &colour);
  gsk_rounded_rect_init_from_rect (&ring, &bounds, 6);
  gtk_snapshot_append_border (snapshot, &ring, wide, (GdkRGBA[]){ colour, colour, colour, colour });
}

static void
draw_ground (BwStoneView *self, GtkSnapshot *snapshot, int width, int height)
{
  BwShadow shadow[BW_SHADOWS_MAX];
  BwEye eye;
  BwViewGround ground = ground_of (self);
  BwCamera camera = bw_stone_view_get_camera (self);
  const BwScene *scene = scene_of (self);
  bw_eye_init (&eye, camera, scene, width, height);
  int n = bw_shadows (scene, &eye, camera, bw_session_get_layers (self->session), width, height,
                      shadow);
  bw_view_ground_draw (snapshot, &ground, shadow, n, width, height);
}

/* Over the picture, whichever way that was drawn. */
static void
draw_needle (BwStoneView *self, GtkSnapshot *snapshot, int width, int height)
{
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  bw_played_needle_paint (cr, scene_of (self), bw_stone_view_get_camera (self),
                          bw_session_get_layers (self->session), width, height);
  cairo_destroy (cr);
}

static void
stone_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BwStoneView *self = BW_STONE_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  if (width > 0 && height > 0)
    draw_ground (self, snapshot, width, height);
  if (self->area)
    gtk_widget_snapshot_child (widget, self->area, snapshot);
  else if (width > 0 && height > 0)
    draw_by_hand (self, snapshot, width, height);
  if (bw_session_get_played (self->session) > 0 && width > 0 && height > 0)
    draw_needle (self, snapshot, width, height);
  if (self->rest.hung && (bw_session_get_layers (self->session) & BW_LAYER_BALANCE))
    bw_view_marks_draw (widget, snapshot, scene_of (self), bw_stone_view_get_camera (self), width,
                        height);
  if (gtk_widget_has_visible_focus (widget))
    draw_focus (self, snapshot, width, height);
}

static void
stone_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  BwStoneView *self = BW_STONE_VIEW (widget);
  if (!self->area)
    return;
  gtk_widget_allocate (self->area, width, height, baseline, NULL);
  gtk_gl_area_queue_render (GTK_GL_AREA (self->area));
}

static void
stone_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                    int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = 120;
  *natural = 420;
}

/* The ring of the focus is drawn here, so its coming and going must be too. */
static void
stone_view_state_flags_changed (GtkWidget *widget, GtkStateFlags before)
{
  GtkStateFlags changed = before ^ gtk_widget_get_state_flags (widget);
  if (changed & (GTK_STATE_FLAG_FOCUSED | GTK_STATE_FLAG_FOCUS_VISIBLE))
    gtk_widget_queue_draw (widget);
}

static void
stone_view_dispose (GObject *object)
{
  BwStoneView *self = BW_STONE_VIEW (object);
  g_clear_handle_id (&self->describe_source, g_source_remove);
  g_clear_handle_id (&self->refine_source, g_source_remove);
  bw_view_rest_stop (&self->rest);
  bw_view_motion_stop (&self->motion);
  g_clear_pointer (&self->area, gtk_widget_unparent);
  drop_project (self);
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  g_clear_pointer (&self->scene, bw_scene_free);
  g_clear_pointer (&self->mineral, g_free);
  g_clear_pointer (&self->drawn, bw_drawn_free);
  G_OBJECT_CLASS (bw_stone_view_parent_class)->dispose (object);
}

static void
bw_stone_view_class_init (BwStoneViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = stone_view_dispose;
  widget_class->snapshot = stone_view_snapshot;
  widget_class->size_allocate = stone_view_size_allocate;
  widget_class->measure = stone_view_measure;
  widget_class->state_flags_changed = stone_view_state_flags_changed;
  gtk_widget_class_set_css_name (widget_class, "stone-view");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bw_stone_view_init (BwStoneView *self)
{
  self->drawn = bw_drawn_new ();
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The finished piece"), -1);
}

static BwScene *
due_scene (gpointer self)
{
  return scene_of (self);
}

static void
stance_moved (gpointer self)
{
  redraw (self);
}

static BwViewBead
bead_at (gpointer self, double x, double y)
{
  BwViewBead bead;
  bw_stone_view_pick (self, x, y, &bead.in_bail, &bead.row, &bead.column);
  return bead;
}

static gboolean
is_hung (gpointer data)
{
  BwStoneView *self = data;
  return self->rest.hung;
}

static void
take_hold (gpointer data)
{
  BwStoneView *self = data;
  bw_view_rest_end_swing (&self->rest);
  bw_view_motion_stop (&self->motion);
}

static void
stop_turning (gpointer data)
{
  BwStoneView *self = data;
  bw_view_motion_stop (&self->motion);
}

static void
let_go (gpointer data, BwCoast coast)
{
  BwStoneView *self = data;
  bw_view_motion_run_on (&self->motion, coast);
}

static void
face (gpointer data, double x, double y)
{
  BwStoneView *self = data;
  BwEye eye;
  int width = gtk_widget_get_width (data), height = gtk_widget_get_height (data);
  const BwScene *scene = scene_of (self);
  BwCamera camera = bw_stone_view_get_camera (self);
  bw_eye_init (&eye, camera, scene, width, height);
  int found
      = bw_face_under (&eye, scene, bw_session_get_layers (self->session), x, y, width, height);
  if (found >= 0)
    bw_view_motion_go_over (&self->motion, bw_camera_facing (scene, found, camera));
}

/* The parts that know nothing of one another are joined here. */
static void
wire_parts (BwStoneView *self)
{
  self->rest = (BwViewRest){ .ticker = GTK_WIDGET (self),
                             .get_scene = due_scene,
                             .moved = stance_moved,
                             .owner = self,
                             .upright = bw_session_get_camera (self->session) };
  self->motion = (BwViewMotion){ .ticker = GTK_WIDGET (self), .session = self->session };
  self->input = (BwViewInput){ .widget = GTK_WIDGET (self),
                               .session = self->session,
                               .get_scene = due_scene,
                               .pick = bead_at,
                               .is_hung = is_hung,
                               .take_hold = take_hold,
                               .stop = stop_turning,
                               .let_go = let_go,
                               .face = face };
  bw_view_input_add (&self->input);
}

/* A named colour can change without the widget's own style: then the toolkit draws nothing. */
static void
follow_theme (BwStoneView *self)
{
  static const char *const signals[]
      = { "notify::gtk-theme-name", "notify::gtk-application-prefer-dark-theme" };
  for (gsize i = 0; i < G_N_ELEMENTS (signals); i++)
    g_signal_connect_object (gtk_widget_get_settings (GTK_WIDGET (self)), signals[i],
                             G_CALLBACK (redraw), self, G_CONNECT_SWAPPED);
}

void
bw_stone_view_set_free_below (BwStoneView *self, int pixels)
{
  g_return_if_fail (BW_IS_STONE_VIEW (self));
  if (self->free_below == pixels)
    return;
  self->free_below = pixels;
  redraw (self);
}

void
bw_stone_view_set_brush (BwStoneView *self, const BwStoneBrush *brush, gpointer data)
{
  g_return_if_fail (BW_IS_STONE_VIEW (self));
  self->input.brush = brush;
  self->input.brush_data = data;
}

void
bw_stone_view_set_brushing (BwStoneView *self, gboolean brushing)
{
  g_return_if_fail (BW_IS_STONE_VIEW (self));
  self->input.brushing = brushing;
  bw_view_input_show_cursor (&self->input, 0);
}

GtkWidget *
bw_stone_view_new (BwSession *session)
{
  g_return_val_if_fail (BW_IS_SESSION (session), NULL);
  BwStoneView *self = g_object_new (BW_TYPE_STONE_VIEW, NULL);
  self->session = g_object_ref (session);
  wire_parts (self);
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (other_project), self);
  g_signal_connect_swapped (session, "view-changed", G_CALLBACK (view_changed), self);
  g_signal_connect_swapped (session, "hover-changed", G_CALLBACK (view_changed), self);
  add_area (self);
  other_project (self);
  follow_theme (self);
  describe (self);
  return GTK_WIDGET (self);
}

gboolean
bw_stone_view_is_swinging (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), FALSE);
  return bw_view_rest_is_swinging (&self->rest);
}

gboolean
bw_stone_view_is_turning (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), FALSE);
  return self->motion.tick != 0;
}

const char *
bw_stone_view_get_driver (BwStoneView *self)
{
  g_return_val_if_fail (BW_IS_STONE_VIEW (self), NULL);
  if (!self->area)
    return "drawn";
  return self->es ? "gles" : "gl";
}

int
bw_stone_view_pick (BwStoneView *self, double x, double y, gboolean *in_bail, int *row, int *column)
{
  BwEye eye;
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  *in_bail = FALSE;
  *row = *column = 0;
  if (width < 1 || height < 1)
    return -1;
  const BwScene *scene = scene_of (self);
  bw_eye_init (&eye, bw_stone_view_get_camera (self), scene, width, height);
  int index = bw_eye_pick (&eye, scene, bw_session_get_layers (self->session), x, y, width, height);
  if (index < 0)
    return -1;
  BwBeadOf bead = bw_scene_bead_of (scene, index);
  *in_bail = bead.in_bail;
  *row = bead.row;
  *column = bead.column;
  return index;
}
