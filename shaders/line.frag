// SPDX-License-Identifier: GPL-3.0-or-later
in float v_across;
flat in float v_half;
flat in float v_strength;
in vec3 v_seen;

uniform vec4 u_colour; // linear, not premultiplied
uniform vec2 u_kind; // 1 when lit as a thread, 1 when it fades out to its sides

out vec4 o_colour;

void main ()
{
  float cover = clamp (v_half + 0.5 - abs (v_across), 0.0, 1.0);
  float bend = clamp (v_across / max (v_half, 0.5), -1.0, 1.0);
  vec3 light = u_colour.rgb * mix (1.0, 0.55 + 0.6 * (1.0 - bend * bend), u_kind.x);
  float fade = 1.0 - abs (bend);
  float alpha = u_colour.a * v_strength * cover * mix (1.0, fade * fade, u_kind.y);
  if (alpha < 0.004)
    discard;
  o_colour = vec4 (encode (light) * alpha, alpha);
}
