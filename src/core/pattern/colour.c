/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours as numbers. The matrices are worked out from the published primaries so that white has no
 * tint: R = G = B gives a = b = 0 exactly but for rounding. */
#include "core/pattern/colour.h"

#include <math.h>

/* Primaries (0.64, 0.33), (0.30, 0.60), (0.15, 0.06) and white (0.3127, 0.3290) of IEC 61966-2-1,
 * solved for XYZ with the white's Y = 1. */
static const double to_xyz[3][3] = {
  { 0.41239079926595948, 0.35758433938387796, 0.18048078840183429 },
  { 0.21263900587151036, 0.71516867876775593, 0.072192315360733715 },
  { 0.019330818715591851, 0.11919477979462599, 0.95053215224966059 },
};

/* Machado, Oliveira & Fernandes 2009, severity 1.0. */
static const double seen_by[BW_N_SIGHTS][3][3] = {
  [BW_SIGHT_FULL] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
  [BW_SIGHT_PROTAN] = { { 0.152286, 1.052583, -0.204868 },
                        { 0.114503, 0.786281, 0.099216 },
                        { -0.003882, -0.048116, 1.051998 } },
  [BW_SIGHT_DEUTAN] = { { 0.367322, 0.860646, -0.227968 },
                        { 0.280085, 0.672501, 0.047413 },
                        { -0.011820, 0.042940, 0.968881 } },
  [BW_SIGHT_TRITAN] = { { 1.255528, -0.076749, -0.178779 },
                        { -0.078411, 0.930809, 0.147602 },
                        { 0.004733, 0.691367, 0.303900 } },
};

static void
multiply (const double m[3][3], BwLinear c, double out[3])
{
  for (int i = 0; i < 3; i++)
    out[i] = m[i][0] * c.r + m[i][1] * c.g + m[i][2] * c.b;
}

double
bw_colour_decode (double encoded)
{
  return encoded <= 0.04045 ? encoded / 12.92 : pow ((encoded + 0.055) / 1.055, 2.4);
}

double
bw_colour_encode (double linear)
{
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * pow (linear, 1 / 2.4) - 0.055;
}

BwLinear
bw_colour_linear (guint32 srgb)
{
  return (BwLinear){ bw_colour_decode (((srgb >> 16) & 255) / 255.0),
                     bw_colour_decode (((srgb >> 8) & 255) / 255.0),
                     bw_colour_decode ((srgb & 255) / 255.0) };
}

static guint32
channel (double linear)
{
  double encoded = bw_colour_encode (CLAMP (linear, 0.0, 1.0));
  return (guint32)lround (CLAMP (encoded, 0.0, 1.0) * 255);
}

guint32
bw_colour_srgb (BwLinear linear)
{
  return channel (linear.r) << 16 | channel (linear.g) << 8 | channel (linear.b);
}

/* CIE 1976: the cube root, and below (6/29)³ its tangent. */
static double
lab_f (double t)
{
  const double delta = 6.0 / 29.0;
  return t > delta * delta * delta ? cbrt (t) : t / (3 * delta * delta) + 4.0 / 29.0;
}

BwLab
bw_colour_lab_from_linear (BwLinear linear)
{
  double xyz[3], white[3];
  multiply (to_xyz, linear, xyz);
  multiply (to_xyz, (BwLinear){ 1, 1, 1 }, white);
  double fx = lab_f (xyz[0] / white[0]), fy = lab_f (xyz[1] / white[1]),
         fz = lab_f (xyz[2] / white[2]);
  return (BwLab){ 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz) };
}

BwLab
bw_colour_lab (guint32 srgb)
{
  return bw_colour_lab_from_linear (bw_colour_linear (srgb));
}

static double
lab_f_inverse (double f)
{
  const double delta = 6.0 / 29.0;
  return f > delta ? f * f * f : 3 * delta * delta * (f - 4.0 / 29.0);
}

/* Solves m x = y by Cramer's rule. */
static BwLinear
solve (const double m[3][3], const double y[3])
{
  double x[3], whole = 0;
  for (int k = 0; k < 3; k++) {
    double minor = m[1][(k + 1) % 3] * m[2][(k + 2) % 3] - m[1][(k + 2) % 3] * m[2][(k + 1) % 3];
    whole += m[0][k] * minor;
  }
  for (int k = 0; k < 3; k++) {
    int a = (k + 1) % 3, b = (k + 2) % 3;
    x[k] = y[0] * (m[1][a] * m[2][b] - m[1][b] * m[2][a])
           + y[1] * (m[2][a] * m[0][b] - m[2][b] * m[0][a])
           + y[2] * (m[0][a] * m[1][b] - m[0][b] * m[1][a]);
  }
  return (BwLinear){ x[0] / whole, x[1] / whole, x[2] / whole };
}

BwLinear
bw_colour_linear_from_lab (BwLab lab)
{
  double white[3], fy = (lab.L + 16) / 116;
  multiply (to_xyz, (BwLinear){ 1, 1, 1 }, white);
  const double xyz[3]
      = { white[0] * lab_f_inverse (fy + lab.a / 500), white[1] * lab_f_inverse (fy),
          white[2] * lab_f_inverse (fy - lab.b / 200) };
  return solve (to_xyz, xyz);
}

static double
hue_of (double a, double b)
{
  if (a == 0 && b == 0)
    return 0;
  double h = atan2 (b, a);
  return h < 0 ? h + 2 * G_PI : h;
}

static double
pow7 (double x)
{
  double x2 = x * x;
  return x2 * x2 * x2 * x;
}

/* Equations 10 and 14 of Sharma, Wu & Dalal: difference and mean of two hues that turn round. */
static void
hue_pair (double h1, double h2, gboolean grey, double *difference, double *mean)
{
  double d = h2 - h1;
  *mean = grey ? h1 + h2 : (h1 + h2) / 2;
  *difference = grey ? 0 : d;
  if (grey || fabs (d) <= G_PI)
    return;
  *difference = d > 0 ? d - 2 * G_PI : d + 2 * G_PI;
  *mean = h1 + h2 < 2 * G_PI ? (h1 + h2) / 2 + G_PI : (h1 + h2) / 2 - G_PI;
}

static double
degrees (double d)
{
  return d * (G_PI / 180);
}

/* Equation 15 and the rotation term 16–21, for the mean hue and the mean chroma. */
static double
hue_weight (double h)
{
  return 1 - 0.17 * cos (h - degrees (30)) + 0.24 * cos (2 * h) + 0.32 * cos (3 * h + degrees (6))
         - 0.20 * cos (4 * h - degrees (63));
}

static double
rotation (double h, double c)
{
  double lean = (h / degrees (1) - 275) / 25;
  double theta = degrees (30) * exp (-lean * lean);
  return -sin (2 * theta) * 2 * sqrt (pow7 (c) / (pow7 (c) + pow7 (25)));
}

double
bw_colour_difference (BwLab x, BwLab y)
{
  double mean_chroma = (hypot (x.a, x.b) + hypot (y.a, y.b)) / 2;
  double g = 0.5 * (1 - sqrt (pow7 (mean_chroma) / (pow7 (mean_chroma) + pow7 (25))));
  double a1 = (1 + g) * x.a, a2 = (1 + g) * y.a;
  double c1 = hypot (a1, x.b), c2 = hypot (a2, y.b);
  double dh, h;
  hue_pair (hue_of (a1, x.b), hue_of (a2, y.b), c1 * c2 == 0, &dh, &h);

  double l = (x.L + y.L) / 2 - 50, c = (c1 + c2) / 2;
  double sl = 1 + 0.015 * l * l / sqrt (20 + l * l);
  double sc = 1 + 0.045 * c, sh = 1 + 0.015 * c * hue_weight (h);
  double dl = (y.L - x.L) / sl, dc = (c2 - c1) / sc, dhue = 2 * sqrt (c1 * c2) * sin (dh / 2) / sh;
  return sqrt (MAX (0.0, dl * dl + dc * dc + dhue * dhue + rotation (h, c) * dc * dhue));
}

guint32
bw_colour_seen (guint32 srgb, BwSight sight)
{
  double out[3];
  multiply (seen_by[sight], bw_colour_linear (srgb), out);
  return bw_colour_srgb ((BwLinear){ out[0], out[1], out[2] });
}

BwLab
bw_colour_lab_seen (guint32 srgb, BwSight sight)
{
  double out[3];
  multiply (seen_by[sight], bw_colour_linear (srgb), out);
  return bw_colour_lab_from_linear (
      (BwLinear){ CLAMP (out[0], 0.0, 1.0), CLAMP (out[1], 0.0, 1.0), CLAMP (out[2], 0.0, 1.0) });
}

double
bw_colour_luminance (guint32 srgb)
{
  BwLinear c = bw_colour_linear (srgb);
  return 0.2126 * c.r + 0.7152 * c.g + 0.0722 * c.b;
}

double
bw_colour_contrast (guint32 a, guint32 b)
{
  double la = bw_colour_luminance (a), lb = bw_colour_luminance (b);
  return (MAX (la, lb) + 0.05) / (MIN (la, lb) + 0.05);
}
