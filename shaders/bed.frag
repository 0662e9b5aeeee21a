// SPDX-License-Identifier: GPL-3.0-or-later
// The wound cord: turn lies on turn, waxed, with a twist that shows when near.
in vec3 v_at;
in vec3 v_normal;
in vec3 v_seen;

uniform float u_shaded; // 1 when beads lie over it

out vec4 o_colour;

void main ()
{
  vec3 dir = normalize (v_seen);
  float azimuth = atan (v_at.y, v_at.x) / 6.2831853;
  float turns = (v_at.z - u_spans.z) / u_cord.w - azimuth;
  float pixel = u_screen.z * length (v_seen) / u_cord.w;
  float fade = clamp (1.5 - 3.0 * pixel, 0.0, 1.0) * (1.0 - abs (v_normal.z));
  float lean = sin (6.2831853 * turns) * 0.75 * fade;
  vec3 n = normalize (mat3 (u_view) * normalize (v_normal + vec3 (0.0, 0.0, -lean)));
  float groove = 0.5 + 0.5 * cos (6.2831853 * (turns - 0.5));
  float twist = sin (6.2831853 * (turns * 2.0 + azimuth * 70.0)) * fade;
  vec3 c = u_cord.rgb * (1.0 - 0.42 * fade * (1.0 - groove) + 0.05 * twist);
  float inside = min (v_at.z - u_spans.x, u_spans.y - v_at.z);
  float open = mix (1.0, mix (1.0, 0.58, smoothstep (-0.4, 1.2, inside)), u_shaded);
  float facing = max (dot (n, -dir), 0.0);
  vec3 light = c * falling (n) * open + mirrored (reflect (dir, n), 0.4) * 0.05 * fresnel (facing, 0.2) * open;
  o_colour = vec4 (develop (light), 1.0);
}
