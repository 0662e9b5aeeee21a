// SPDX-License-Identifier: GPL-3.0-or-later
// Lights one bead. All finishes share one way of reckoning and differ in their shares: a branch for each
// would cost a software driver the sum of them all.
in vec3 v_ray;
flat in vec3 v_centre;
flat in vec3 v_axis;
flat in vec3 v_out;
flat in vec3 v_colour;
flat in vec3 v_glass;
flat in vec3 v_behind;
flat in vec4 v_body;
flat in vec4 v_gloss;
flat in vec2 v_soft;

#ifdef HALO
uniform float u_halo;
uniform float u_ghost; // share of the ring that shows
#endif

out vec4 o_colour;

const vec3 THREAD = vec3 (0.42, 0.42, 0.42);

// How much of the room a point sees past the bead's neighbours and what it lies on.
float openness (vec3 n, vec2 q)
{
  float up = dot (n, v_out);
  float open = mix (0.16, 1.0, smoothstep (-0.45, 0.85, up));
  float from_end = u_bead.y - abs (q.y);
  open *= mix (0.6, 1.0, smoothstep (0.0, 0.22 * u_bead.y, from_end));
  return q.x < 0.5 * (u_bead.x + u_bead.z) ? open * 0.3 : open;
}

// The glass as the bent ray meets it; x: way through it in diameters, y: 1 where it meets the hole (or
// the lining, which is a little wider), z: 1 where the thread is behind the glass, a few passes thick.
vec3 glass (vec3 spot, vec3 bent)
{
  Profile p = profile (spot, bent, v_axis);
  vec2 inside = reach (p, u_bead.x, u_bead.y);
  vec2 hole = reach (p, u_bead.z * (1.0 + 0.25 * v_body.z), u_bead.y);
  float across = max (hole.y - max (hole.x, 0.0), 0.0);
  float off_axis = sqrt (max (p.c - p.b * p.b / p.a, 0.0));
  float passes = min (1.6 * u_screen.w, 0.7 * u_bead.z);
  return vec3 (max (inside.y - across, 0.0) / (2.0 * u_bead.x),
               smoothstep (-0.02, 0.06, hole.y - max (hole.x, 0.0)),
               (1.0 - smoothstep (0.7, 1.0, off_axis / passes)) * v_body.y);
}

vec3 lit (vec3 dir, vec3 spot, vec2 q, vec3 n)
{
  float open = openness (n, q), facing = max (dot (n, -dir), 0.0);
  vec3 dull = falling (n) * open;
  vec3 bent = refract (dir, n, 1.0 / 1.5);
  vec3 way = glass (spot, bent);

  // Light that has come through from behind gathers on the side away from the lamp, as in every round
  // piece of glass.
  float gathered = max (dot (bent, -u_key_dir.xyz), 0.0);
  vec3 behind = v_behind + u_key.rgb * (gathered * gathered * gathered * 0.26);
  float shaded = mix (0.55, 1.0, open);
  vec3 through = exp2 (v_glass * (0.35 + 1.1 * way.x)) * behind * (shaded * mix (1.0, 0.72, way.y));
  through = mix (through, THREAD * falling (-bent) * exp2 (v_glass * 0.5), 0.55 * way.z);
  vec3 lining = mix (mix (vec3 (0.80, 0.84, 0.86), v_colour, 0.22) * v_behind,
                     v_colour * (0.5 * dull + 1.6 * v_behind), way.y) * shaded;

  // A lining of silver is a mirror of its own: it shows the lights in the bead's colour.
  lining += v_colour * mirrored (reflect (dir, n), 0.22) * (max (v_body.z - 1.0, 0.0) * 0.42 * way.y * open);
  float rim = 1.0 - facing;
  vec3 skin = v_colour * dull * v_body.x
              + mix (v_colour, vec3 (0.9), 0.55) * dull * (v_soft.x * (0.25 + rim * rim));
  // A thin film on the glass: its sheen changes hue with the angle.
  vec3 film = 0.5 + 0.5 * cos (6.2831853 * (vec3 (0.25, 0.58, 0.92) + (1.15 + 1.6 * max (v_body.w - 1.0, 0.0)) * facing));
  vec3 tint = mix (vec3 (1.0), film, 0.6 * v_body.w);
  tint = mix (tint, v_colour, v_soft.y * (1.0 - rim * rim * rim));
  vec3 mirror = mirrored (reflect (dir, n), v_gloss.w) * tint
                * (open * (v_gloss.x + v_gloss.y * fresnel (facing, v_gloss.z)));
  return skin + through * v_body.y + lining * min (v_body.z, 1.0) + mirror;
}

float depth_of (float z)
{
  return 0.5 - 0.5 * (u_projection[2][2] * z + u_projection[3][2]) / z;
}

void main ()
{
  vec3 dir = normalize (v_ray);
  vec3 from = v_ray - v_centre;
  float pixel = u_screen.z * length (v_centre);
#ifdef HALO
  float halo = u_halo * pixel;
#else
  const float halo = 0.0;
#endif
  Profile p = profile (from, dir, v_axis);
  vec2 span = reach (p, u_bead.x + pixel * 0.5 + halo, u_bead.y + pixel * 0.5 + halo);
  vec2 met = walk (p, span, 0.5 * pixel, 0.05 * pixel);
  float cover = span.x > span.y ? 0.0 : clamp (1.0 - met.y / pixel, 0.0, 1.0);
#ifdef HALO
  float ring = span.x > span.y ? 0.0 : clamp ((halo - met.y) / pixel, 0.0, 1.0);
#else
  float ring = 0.0;
#endif
#ifdef LOOSE
  const float least = 0.5; // in no order an edge is there or not
#else
  const float least = 0.02;
#endif
  if (max (cover, ring) < least)
    discard;

  vec2 q = at (p, met.x);
  vec3 spot = from + dir * met.x;
  vec2 flat_normal = wall_normal (q);
  vec3 radial = (spot - q.y * v_axis) / max (q.x, 1e-4);
  vec3 n = normalize (radial * flat_normal.x + v_axis * flat_normal.y);
  vec3 light = lit (dir, spot, q, n);
#ifdef HALO
  // A light rim inside a dark one is seen on every ground; neither leans on hue.
  float inner = clamp ((0.55 * halo - met.y) / pixel, 0.0, 1.0);
  float edge = 1.0 - max (dot (n, -dir), 0.0);
  light = light * 1.08 + 0.05 + edge * edge * 0.6;
  vec3 rim = mix (vec3 (0.03), vec3 (1.0, 0.97, 0.86), inner);
  o_colour = vec4 (mix (encode (rim), develop (light), cover), 1.0) * (max (cover, ring) * u_ghost);
#elif defined (LOOSE)
  o_colour = vec4 (develop (light), 1.0);
#else
  o_colour = vec4 (develop (light), 1.0) * cover;
#endif
  gl_FragDepth = depth_of (v_centre.z + spot.z);
}
