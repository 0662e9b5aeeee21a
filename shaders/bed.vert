// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;

out vec3 v_at;
out vec3 v_normal;
out vec3 v_seen;

void main ()
{
  vec4 seen = u_view * vec4 (a_at, 1.0);
  v_at = a_at;
  v_normal = a_normal;
  v_seen = seen.xyz;
  gl_Position = u_projection * seen;
}
