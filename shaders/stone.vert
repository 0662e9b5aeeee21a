// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;

out vec3 v_at;
flat out vec3 v_normal;

void main ()
{
  v_at = a_at;
  v_normal = a_normal;
  gl_Position = u_projection * (u_view * vec4 (a_at, 1.0));
}
