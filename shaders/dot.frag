// SPDX-License-Identifier: GPL-3.0-or-later
flat in vec4 v_shown;

out vec4 o_colour;

void main ()
{
  o_colour = v_shown;
}
