// SPDX-License-Identifier: GPL-3.0-or-later
// A bead too small on the screen to show its shape: one point, lit as the bead is on the whole.
in vec3 a_at;
in vec3 a_axis;
in vec3 a_out;
in vec3 a_colour;
in float a_finish;

flat out vec4 v_shown;

void main ()
{
  vec3 centre = (u_view * vec4 (a_at, 1.0)).xyz;
  vec3 toward = -normalize (centre);
  vec3 outward = mat3 (u_view) * a_out, axis = mat3 (u_view) * a_axis;
  // The middle of what is seen of the wall.
  vec3 n = normalize (toward - axis * dot (axis, toward) + 0.3 * outward + 0.05 * toward);
  float open = mix (0.25, 0.95, smoothstep (-0.4, 0.7, dot (toward, outward)));
  float gloss = int (a_finish + 0.5) == FINISH_MATTE ? 0.0 : 0.03;
  vec3 light = a_colour * falling (n) * (0.92 * open) + mirrored (reflect (-toward, n), 0.4) * (gloss * open);
  v_shown = vec4 (develop (light), 1.0);
  gl_Position = u_projection * vec4 (centre, 1.0);
  gl_PointSize = max ((u_bead.x + u_bead.y) / (u_screen.z * -centre.z), 1.0);
}
