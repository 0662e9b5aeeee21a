/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beads should look like beads, and a matte one unlike a clear one, at any size: so each is shaded
 * pixel by pixel as a small cylinder, once for each colour, finish and size, and kept by the
 * caller.
 *
 * Light is added up in linear light, as light does. The parameters of the finishes are set by eye.
 */
#include "editor/cloth/bead-picture.h"

#include <math.h>

typedef struct {
  double r, g, b;
} Light;

/* What a finish does with light. All of it is looks, not physics. */
typedef struct {
  double ambient, diffuse; /* the colour itself */
  double shine, sharpness; /* highlight and how narrow it is */
  double rim;              /* white at the grazing sides */
  double glow;             /* light gone through the glass, on the far side */
  double channel;          /* how much the hole shows through */
  double milk;             /* white mixed into the colour */
  double mirror;           /* how much of the room polished metal shows */
} Look;

static const Look looks[BW_N_FINISHES] = {
  [BW_FINISH_OPAQUE] = { 0.22, 0.78, 0.40, 48, 0.015, 0, 0, 0 },
  [BW_FINISH_MATTE] = { 0.34, 0.64, 0.012, 3, 0.015, 0, 0, 0.004 },
  [BW_FINISH_CLEAR] = { 0.28, 0.24, 0.70, 90, 0.08, 0.72, 0.30, 0 },
  [BW_FINISH_FROSTED] = { 0.44, 0.34, 0.03, 4, 0.05, 0.30, 0.10, 0.022 },
  [BW_FINISH_LINED] = { 0.30, 0.66, 0.55, 80, 0.10, 0.15, 0, 0 },
  [BW_FINISH_LUSTRE] = { 0.22, 0.74, 0.30, 18, 0.14, 0, 0, 0.004 },
  [BW_FINISH_METAL] = { 0.05, 0.26, 0.55, 26, 0.04, 0, 0, 0, 1 },
  [BW_FINISH_RAINBOW] = { 0.20, 0.62, 0.45, 40, 0.03, 0, 0, 0 },
  [BW_FINISH_GALVANISED] = { 0.12, 0.46, 0.26, 8, 0.05, 0, 0, 0, 0.45 },
  [BW_FINISH_SILVER_LINED] = { 0.34, 0.52, 0.95, 110, 0.10, 0.25, 0, 0 },
};

static double
to_linear (double value)
{
  return value <= 0.04045 ? value / 12.92 : pow ((value + 0.055) / 1.055, 2.4);
}

static double
to_srgb (double value)
{
  return value <= 0.0031308 ? value * 12.92 : 1.055 * pow (value, 1 / 2.4) - 0.055;
}

/* Every pixel needs it three times: a table of 4096 steps is exact to the byte's half. */
#define TONES 4096

static const guint8 *
srgb_bytes (void)
{
  static const guint8 *table;
  if (g_once_init_enter (&table)) {
    guint8 *bytes = g_malloc (TONES);
    for (int i = 0; i < TONES; i++)
      bytes[i] = (guint8)(to_srgb (i / (TONES - 1.0)) * 255 + 0.5);
    g_once_init_leave (&table, bytes);
  }
  return table;
}

static Light
light_from_srgb (guint32 srgb)
{
  return (Light){
    to_linear ((srgb >> 16 & 0xff) / 255.0),
    to_linear ((srgb >> 8 & 0xff) / 255.0),
    to_linear ((srgb & 0xff) / 255.0),
  };
}

static Light
scale (Light light, double by)
{
  return (Light){ light.r * by, light.g * by, light.b * by };
}

static Light
mix (Light a, Light b, double share)
{
  return (Light){
    a.r + (b.r - a.r) * share,
    a.g + (b.g - a.g) * share,
    a.b + (b.b - a.b) * share,
  };
}

static Light
add_white (Light light, double amount)
{
  return (Light){ light.r + amount, light.g + amount, light.b + amount };
}

static double
smooth (double low, double high, double value)
{
  double t = CLAMP ((value - low) / (high - low), 0, 1);
  return t * t * (3 - 2 * t);
}

/* The normal of a cylinder with rounded ends. x, y in −1..1 across and up the bead. */
static void
normal_at (double x, double y, double normal[3])
{
  const double bevel = 0.22;
  double end = MAX (0, (fabs (y) - (1 - bevel)) / bevel);
  double nx = 0.97 * x, ny = copysign (0.75 * end * end, y);
  double nz = sqrt (MAX (0.02, 1 - nx * nx - ny * ny));
  double length = sqrt (nx * nx + ny * ny + nz * nz);
  normal[0] = nx / length;
  normal[1] = ny / length;
  normal[2] = nz / length;
}

/* A room mirrored in polished metal: bright sky above the horizon, dark table below it. */
static double
mirrored_room (const double normal[3])
{
  double side = normal[0] + 0.35 * normal[1];
  double sky = 0.75 * smooth (0.15, -0.75, side) + 0.50 * smooth (0.55, 0.85, side);
  double horizon = 0.42 * smooth (0.28, 0.02, fabs (side - 0.30));
  return MAX (0, 0.42 + sky - horizon);
}

/* The colour of a lined bead sits in its hole; the glass round it is nearly clear. */
static Light
lined_body (Light colour, double x)
{
  double glass = smooth (0.50, 0.66, fabs (x));
  Light clear = add_white (scale (colour, 0.45), 0.22);
  return mix (colour, clear, glass * 0.75);
}

/* The mirror in the hole sends back what light reaches it: a bright core, with a glint on either
 * side of it where the round glass gathers more. */
static Light
silver_body (Light colour, double x)
{
  double core = smooth (0.62, 0.44, fabs (x)), glint = smooth (0.16, 0, fabs (fabs (x) - 0.36));
  return add_white (scale (colour, 0.42 + 0.66 * core), 0.30 * glint);
}

/* A thin film: every slant of the surface sends back another hue. */
static Light
rainbow_sheen (Light light, const double normal[3])
{
  double turn = 1.25 * normal[2] + 0.35 * normal[0];
  double show = 0.02 + 0.26 * (1 - normal[2]);
  light.r += show * (0.5 + 0.5 * cos (2 * G_PI * (turn + 0.25)));
  light.g += show * (0.5 + 0.5 * cos (2 * G_PI * (turn + 0.58)));
  light.b += show * (0.5 + 0.5 * cos (2 * G_PI * (turn + 0.92)));
  return light;
}

static gboolean
is_metal (BwFinish finish)
{
  return finish == BW_FINISH_METAL || finish == BW_FINISH_GALVANISED;
}

static Light
body_of (BwFinish finish, Light colour, double x)
{
  if (finish == BW_FINISH_LINED)
    return lined_body (colour, x);
  return finish == BW_FINISH_SILVER_LINED ? silver_body (colour, x) : colour;
}

static Light
lustre_sheen (Light light, const double normal[3])
{
  double grazing = (1 - normal[2]) * sqrt (1 - normal[2]);
  light.r += 0.16 * grazing;
  light.g += 0.10 * grazing * (1 + normal[0]);
  light.b += 0.24 * grazing;
  return light;
}

/* base^sharpness for base ≤ 1, nought where it would not show. */
static double
power (double base, double sharpness)
{
  return base < 1 - 8 / sharpness ? 0 : pow (base, sharpness);
}

static Light
shade (const Look *look, BwFinish finish, Light colour, double x, double y)
{
  static const double sun[3] = { -0.42, 0.40, 0.815 };
  static const double half[3] = { -0.220, 0.210, 0.953 };
  double n[3];
  normal_at (x, y, n);
  double facing = MAX (0, n[0] * sun[0] + n[1] * sun[1] + n[2] * sun[2]);
  double mirror = MAX (0, n[0] * half[0] + n[1] * half[1] + n[2] * half[2]);
  double away = smooth (-0.9, 1.1, 0.75 * x - 0.45 * y), graze = 1 - n[2];

  Light body = body_of (finish, colour, x);
  double amount = look->ambient + look->diffuse * facing + look->glow * away * away * 1.6;
  if (is_metal (finish))
    amount += 0.85 * (0.75 + (mirrored_room (n) - 0.75) * look->mirror);
  amount *= 1 - look->channel * smooth (0.62, 0.50, fabs (x)) * (0.7 + 0.3 * y);

  Light light = scale (body, amount);
  double highlight = look->shine * power (mirror, look->sharpness);
  if (is_metal (finish))
    light = mix (light, add_white (scale (colour, 0.6), 0.4), MIN (1, highlight));
  else
    light = add_white (light, highlight);
  if (finish == BW_FINISH_LUSTRE)
    light = lustre_sheen (light, n);
  if (finish == BW_FINISH_RAINBOW)
    light = rainbow_sheen (light, n);
  return add_white (light, look->rim * graze * graze * graze + look->milk);
}

/* How far inside the rounded outline of the glass a point lies, pixels. */
static double
inside_by (double x, double y, double half_width, double half_height)
{
  double radius = 0.24 * MIN (half_width, half_height);
  double dx = fabs (x) - (half_width - radius), dy = fabs (y) - (half_height - radius);
  double outside = hypot (MAX (dx, 0), MAX (dy, 0)) + MIN (MAX (dx, dy), 0);
  return radius - outside;
}

static guint32
byte_of (const guint8 *bytes, double light, guint alpha)
{
  guint full = bytes[(int)(CLAMP (light, 0, 1) * (TONES - 1) + 0.5)];
  return (full * alpha + 127) / 255;
}

static guint32
pack (const guint8 *bytes, Light light, double alpha)
{
  guint a = (guint)(alpha * 255 + 0.5);
  return a << 24 | byte_of (bytes, light.r, a) << 16 | byte_of (bytes, light.g, a) << 8
         | byte_of (bytes, light.b, a);
}

/* Share of the pixel [at, at + 1) that lies in [low, high). */
static double
overlap (double at, double low, double high)
{
  return CLAMP (MIN (at + 1, high) - MAX (at, low), 0, 1);
}

/* What one picture needs for every pixel. */
typedef struct {
  const BwBeadFrame *frame;
  Look look;
  BwFinish finish;
  Light colour;
  double half_width, half_height; /* of the glass */
  double middle_x, middle_y;
  gboolean plain;
} Painter;

/* The light at one point: glass where there is glass, else the shadow between the beads. */
static Light
sample (const Painter *painter, double x, double y)
{
  const Light shadow = scale (painter->colour, 0.16);
  double dx = x - painter->middle_x, dy = painter->middle_y - y;
  double glass = CLAMP (inside_by (dx, dy, painter->half_width, painter->half_height) + 0.5, 0, 1);

  if (glass <= 0)
    return shadow;
  double across = CLAMP (dx / painter->half_width, -1, 1);
  double up = CLAMP (dy / painter->half_height, -1, 1);
  Light light = shade (&painter->look, painter->finish, painter->colour, across, up);
  return mix (shadow, light, glass);
}

static void
painter_init (Painter *painter, const BwBeadFrame *frame, guint32 srgb, BwFinish finish)
{
  *painter = (Painter){
    .frame = frame,
    .look = looks[finish],
    .finish = finish,
    .colour = light_from_srgb (srgb),
    .half_width = frame->width * frame->fill_x / 2,
    .half_height = frame->height * frame->fill_y / 2,
    .middle_x = frame->x + frame->width / 2,
    .middle_y = frame->y + frame->height / 2,
    .plain = MIN (frame->width, frame->height) < BW_BEAD_PLAIN_PX,
  };
  if (frame->calm) {
    painter->look.shine *= 0.35;
    painter->look.channel *= 0.5;
    painter->look.mirror *= 0.4;
  }
}

void
bw_bead_picture_paint (guint32 *pixels, int width, int height, const BwBeadFrame *frame,
                       guint32 srgb, BwFinish finish)
{
  Painter painter;
  const guint8 *bytes = srgb_bytes ();
  painter_init (&painter, frame, srgb, finish);

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      double alpha = overlap (x, frame->x, frame->x + frame->width)
                     * overlap (y, frame->y, frame->y + frame->height);
      Light light
          = painter.plain || alpha <= 0 ? painter.colour : sample (&painter, x + 0.5, y + 0.5);
      pixels[y * width + x] = pack (bytes, light, alpha);
    }
}

gboolean
bw_bead_letter_is_black (guint32 srgb)
{
  Light light = light_from_srgb (srgb);
  double luminance = 0.2126 * light.r + 0.7152 * light.g + 0.0722 * light.b;
  return (luminance + 0.05) / 0.05 >= 1.05 / (luminance + 0.05);
}
