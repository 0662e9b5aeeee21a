// SPDX-License-Identifier: GPL-3.0-or-later
in vec3 a_at;
in vec3 a_normal;

void main ()
{
  gl_Position = u_projection * (u_view * vec4 (a_at, 1.0));
}
