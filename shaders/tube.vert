// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;
in vec3 a_place; // way along in millimetres, turn round, how much it shows

out vec3 v_normal;
out vec3 v_seen;
out vec3 v_place;

void main ()
{
  vec4 seen = u_view * vec4 (a_at, 1.0);
  v_normal = mat3 (u_view) * a_normal;
  v_seen = seen.xyz;
  v_place = a_place;
  gl_Position = u_projection * seen;
}
