// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;

out vec3 v_seen;
flat out vec3 v_normal;

uniform vec2 u_swell; // how far the outline is pushed out, in half widths and heights of the picture

void main ()
{
  vec4 seen = u_view * vec4 (a_at, 1.0);
  v_seen = seen.xyz;
  v_normal = mat3 (u_view) * a_normal;
  vec4 middle = u_projection * (u_view * vec4 (0.0, 0.0, 0.5 / u_look.w, 1.0));
  gl_Position = u_projection * seen;
  vec2 outward = gl_Position.xy / gl_Position.w - middle.xy / middle.w;
  gl_Position.xy += u_swell * gl_Position.w * outward / max (length (outward), 1e-3);
}
