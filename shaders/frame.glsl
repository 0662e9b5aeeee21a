// SPDX-License-Identifier: GPL-3.0-or-later
// What every shader of the stone view knows about the picture. Filled once a frame; the layout is that
// of BwGlFrame. Directions of light are in the eye's space: the light stands still while the piece
// turns, as on a photographer's table.
layout(std140) uniform Frame {
  mat4 u_view;
  mat4 u_projection;
  vec4 u_screen;     // width, height, size of one pixel at distance 1, half the thread's width
  vec4 u_sky;        // light from above
  vec4 u_horizon;
  vec4 u_ground;
  vec4 u_key_dir;    // to the big light; w: half its width as a tangent
  vec4 u_key_across; // its own right and up
  vec4 u_key_up;
  vec4 u_key;        // its light
  vec4 u_rim_dir;    // to the narrow light at the side; w: half its width
  vec4 u_rim;
  vec4 u_bead;       // radius, half length, hole radius, rounding
  vec4 u_spans;      // band from, to; bed from, to
  vec4 u_cord;       // colour, width
  vec4 u_keeps;      // logarithm (base 2) of what 1 mm of the stone keeps of the light
  vec4 u_index;      // of the stone for red, green and blue; what it mirrors straight on
  vec4 u_look;       // zoning, milk and veils a mm, and one over the stone's height
  vec4 u_behind;     // the ground, as far as it is known: what shows through the stone; w: how much
};

// sRGB's curve, by roots instead of a power: within 4/255 of it, and most of that in the blackest
// blacks, at a third of the cost.
vec3 encode (vec3 light)
{
  vec3 c = clamp (light, 0.0, 1.0);
  vec3 a = sqrt (c), b = sqrt (a);
  return clamp (0.76979 * a + 0.54372 * b - 0.26085 * sqrt (b) - 0.05266 * c, 0.0, 1.0);
}
