// SPDX-License-Identifier: GPL-3.0-or-later
// Lights one bead. Each finish is told from the others by how it takes light, not by colour alone.
in vec3 v_ray;
flat in vec3 v_centre;
flat in vec3 v_axis;
flat in vec3 v_out;
flat in vec3 v_colour;
flat in int v_finish;

uniform float u_halo;
uniform float u_ghost; // share of the ring that shows

out vec4 o_colour;

// How much of the room a point sees past the bead's neighbours and what it lies on.
float openness (vec3 n, vec2 q)
{
  float up = dot (n, v_out);
  float open = mix (0.16, 1.0, smoothstep (-0.45, 0.85, up));
  float from_end = u_bead.y - abs (q.y);
  open *= mix (0.6, 1.0, smoothstep (0.0, 0.22 * u_bead.y, from_end));
  return q.x < 0.5 * (u_bead.x + u_bead.z) ? open * 0.3 : open;
}

// Glass between where the ray enters and where it leaves, the hole left out; x: length in diameters,
// y: 1 where the ray meets the hole.
vec2 glass (Profile p, float enter)
{
  vec2 inside = reach (p, u_bead.x, u_bead.y);
  vec2 hole = reach (p, u_bead.z, u_bead.y);
  float hole_length = max (hole.y - max (hole.x, enter), 0.0);
  float way = max (inside.y - enter - hole_length, 0.0);
  return vec2 (way / (2.0 * u_bead.x), hole.y > max (hole.x, enter) ? 1.0 : 0.0);
}

// Light that has come through the bead from the cord and the room behind it.
vec3 through (vec3 from, vec3 dir, vec3 n, float enter, float open, out float meets_hole)
{
  vec3 bent = refract (dir, n, 1.0 / 1.5);
  Profile p = profile (from + dir * enter, bent, v_axis);
  vec2 way = glass (p, 0.0);
  meets_hole = way.y;
  vec3 keeps = pow (max (v_colour, vec3 (0.004)), vec3 (0.35 + 1.1 * way.x));
  // Light gathers on the side away from the lamp, as in every round piece of glass.
  float gathered = pow (max (dot (bent, -u_key_dir.xyz), 0.0), 3.0);
  vec3 behind = u_cord.rgb * 0.35 + falling (v_out) * 0.30 + u_key.rgb * gathered * 0.24;
  return keeps * behind * mix (0.55, 1.0, open) * mix (1.0, 0.72, meets_hole);
}

vec3 lit (vec3 from, vec3 dir, float enter, vec2 q, vec3 n)
{
  float open = openness (n, q);
  float facing = max (dot (n, -dir), 0.0);
  vec3 back = reflect (dir, n);
  vec3 dull = falling (n) * open;
  vec3 c = v_colour;
  float hole;
  switch (v_finish) {
  case FINISH_MATTE:
    return c * dull * 0.92 + (0.02 + 0.10 * c) * dull * pow (1.0 - facing, 2.0);
  case FINISH_CLEAR:
    return through (from, dir, n, enter, open, hole)
           + mirrored (back, 0.05) * fresnel (facing, 0.045) * open;
  case FINISH_FROSTED: {
    vec3 inner = through (from, dir, n, enter, open, hole);
    vec3 skin = mix (c, vec3 (dot (c, vec3 (0.3, 0.5, 0.2))), 0.15) * dull;
    return mix (inner, skin, 0.55) + vec3 (0.16) * dull * (0.25 + pow (1.0 - facing, 1.5));
  }
  case FINISH_LINED: {
    vec3 bent = refract (dir, n, 1.0 / 1.5);
    Profile p = profile (from + dir * enter, bent, v_axis);
    vec2 lining = reach (p, u_bead.z * 1.25, u_bead.y);
    vec3 clear = mix (vec3 (0.80, 0.84, 0.86), c, 0.22)
                 * (falling (v_out) * 0.34 + u_cord.rgb * 0.20) * mix (0.5, 1.0, open);
    vec3 core = c * (falling (normalize (n + v_out)) * 1.05) * mix (0.6, 1.0, open);
    float on = smoothstep (-0.02, 0.06, lining.y - lining.x);
    return mix (clear, core, on) + mirrored (back, 0.05) * fresnel (facing, 0.05) * open;
  }
  case FINISH_LUSTRE: {
    // A thin film: the sheen changes hue with the angle.
    vec3 film = 0.5 + 0.5 * cos (6.2831853 * (vec3 (0.0, 0.33, 0.67) + 0.25 + 1.15 * facing));
    vec3 sheen = mix (vec3 (1.0), film, 0.55) * mirrored (back, 0.28);
    return c * dull * 0.80 + sheen * (0.10 + 0.30 * fresnel (facing, 0.10)) * open;
  }
  case FINISH_METAL: {
    vec3 tint = mix (c, vec3 (1.0), fresnel (facing, 0.0));
    return tint * (mirrored (back, 0.16) * 0.86 * open + dull * 0.10);
  }
  default:
    return c * dull * 0.96 + mirrored (back, 0.09) * fresnel (facing, 0.05) * open;
  }
}

float depth_of (vec3 at)
{
  vec4 clip = u_projection * vec4 (at, 1.0);
  return 0.5 * clip.z / clip.w + 0.5;
}

void main ()
{
  vec3 dir = normalize (v_ray);
  vec3 from = v_ray - v_centre;
  float pixel = u_screen.z * length (v_centre);
  float halo = u_halo * pixel;
  Profile p = profile (from, dir, v_axis);
  vec2 span = reach (p, u_bead.x + pixel * 0.5 + halo, u_bead.y + pixel * 0.5 + halo);
  if (span.x > span.y)
    discard;
  vec2 met = walk (p, span, 0.5 * pixel, 0.02 * pixel);
  float cover = clamp (1.0 - met.y / pixel, 0.0, 1.0);
  float ring = u_halo > 0.0 ? clamp ((halo - met.y) / pixel, 0.0, 1.0) : 0.0;
  if (max (cover, ring) < 0.02)
    discard;

  vec2 q = at (p, met.x);
  vec3 spot = from + dir * met.x;
  vec2 flat_normal = wall_normal (q);
  vec3 radial = (spot - q.y * v_axis) / max (q.x, 1e-4);
  vec3 n = normalize (radial * flat_normal.x + v_axis * flat_normal.y);
  vec3 light = lit (from, dir, met.x, q, n);
  if (u_halo > 0.0) {
    // A light rim inside a dark one is seen on every ground; neither leans on hue.
    float inner = clamp ((0.55 * halo - met.y) / pixel, 0.0, 1.0);
    light = light * 1.08 + 0.05 + pow (1.0 - max (dot (n, -dir), 0.0), 2.0) * 0.6;
    vec3 rim = mix (vec3 (0.03), vec3 (1.0, 0.97, 0.86), inner);
    o_colour = vec4 (mix (encode (rim), develop (light), cover), 1.0) * max (cover, ring) * u_ghost;
  } else {
    o_colour = vec4 (develop (light), 1.0) * cover;
  }
  gl_FragDepth = depth_of (v_centre + spot);
}
