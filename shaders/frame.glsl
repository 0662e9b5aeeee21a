// SPDX-License-Identifier: GPL-3.0-or-later
// What every shader of the stone view knows about the picture. Filled once a frame; the layout is that
// of BwGlFrame. Directions of light are in the eye's space: the light stands still while the piece
// turns, as on a photographer's table.
layout(std140) uniform Frame {
  mat4 u_view;
  mat4 u_projection;
  vec4 u_eye;        // of the piece's space
  vec4 u_screen;     // width, height, size of one pixel at distance 1
  vec4 u_sky;        // light from above
  vec4 u_horizon;
  vec4 u_ground;
  vec4 u_key_dir;    // to the big light; w: half its width as a tangent
  vec4 u_key;        // its light
  vec4 u_rim_dir;    // to the narrow light at the side; w: half its width
  vec4 u_rim;
  vec4 u_bead;       // radius, half length, hole radius, rounding
  vec4 u_spans;      // band from, to; bed from, to
  vec4 u_cord;       // colour, width
  vec4 u_keeps;      // what 10 mm of the stone leave of the light
  vec4 u_paper;      // background, linear, not premultiplied, alpha
};

vec3 encode (vec3 linear)
{
  vec3 c = clamp (linear, 0.0, 1.0);
  return mix (12.92 * c, 1.055 * pow (c, vec3 (1.0 / 2.4)) - 0.055, step (0.0031308, c));
}
