// SPDX-License-Identifier: GPL-3.0-or-later
// The stone as it was drawn small, within its true outline.
uniform sampler2D u_small;
uniform vec2 u_over; // one over the picture's size

out vec4 o_colour;

void main ()
{
  o_colour = texture (u_small, gl_FragCoord.xy * u_over);
}
