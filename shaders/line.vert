// SPDX-License-Identifier: GPL-3.0-or-later
// A line of even width: one quad per stretch, widened on the screen.
in vec3 a_from;
in vec3 a_to;
in float a_strength;

uniform vec2 u_width; // in pixels at least, in millimetres

out float v_across;
flat out float v_half;
flat out float v_strength;
out vec3 v_seen;

void main ()
{
  vec3 p = (u_view * vec4 (a_from, 1.0)).xyz, q = (u_view * vec4 (a_to, 1.0)).xyz;
  vec3 here = (gl_VertexID & 1) == 0 ? p : q;
  float pixel = u_screen.z * -here.z;
  float half_width = 0.5 * max (u_width.x * pixel, u_width.y);
  vec3 side = cross (q - p, here);
  float size = length (side);
  side = size > 1e-9 ? side / size : vec3 (1.0, 0.0, 0.0);
  float hand = float (gl_VertexID >> 1) * 2.0 - 1.0;
  v_half = half_width / pixel;
  v_across = hand * (v_half + 1.0);
  v_strength = a_strength;
  v_seen = here + side * hand * (half_width + pixel);
  // A touch nearer than what it lies on.
  vec3 lifted = v_seen * (1.0 - 0.0006);
  gl_Position = u_projection * vec4 (lifted, 1.0);
}
