// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;

out vec3 v_seen;
flat out vec3 v_normal;

void main ()
{
  vec4 seen = u_view * vec4 (a_at, 1.0);
  v_seen = seen.xyz;
  v_normal = mat3 (u_view) * a_normal;
  gl_Position = u_projection * seen;
}
