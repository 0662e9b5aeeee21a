// SPDX-License-Identifier: GPL-3.0-or-later
// The hanging cord, twisted and waxed, and the metal ring.
in vec3 v_normal;
in vec3 v_seen;
in vec3 v_place;

uniform float u_radius;
uniform float u_metal; // 1: metal, 0: cord

out vec4 o_colour;

const vec3 CORD = vec3 (0.125, 0.070, 0.040);
const vec3 METAL = vec3 (0.88, 0.86, 0.82);

// Strands twisted round each other; 0 in the groove between two, 1 on a strand's back.
float strand (float pixel)
{
  float across = v_place.x / (u_radius * 2.6) + v_place.y * 2.0;
  float back = sqrt (abs (sin (6.2831853 * across)));
  return mix (0.8, back, clamp (1.7 - 5.0 * pixel / u_radius, 0.0, 1.0));
}

vec3 cord (vec3 dir, vec3 n, float pixel)
{
  float facing = max (dot (n, -dir), 0.0), back = strand (pixel);
  // Fibres stand off the cord and catch light at its rim.
  float rim = 1.0 - facing;
  vec3 dull = falling (n) * (CORD * (0.62 + 0.42 * back) + 0.03 * rim * rim);
  return dull + mirrored (reflect (dir, n), 0.4) * 0.06 * back * fresnel (facing, 0.2);
}

vec3 metal (vec3 dir, vec3 n)
{
  float facing = max (dot (n, -dir), 0.0);
  vec3 shine = mix (METAL, vec3 (1.0), fresnel (facing, 0.0));
  return shine * (mirrored (reflect (dir, n), 0.12) * 0.62 + falling (n) * 0.16);
}

void main ()
{
  vec3 dir = normalize (v_seen), n = normalize (v_normal);
  float pixel = u_screen.z * length (v_seen);
  vec3 light = u_metal > 0.5 ? metal (dir, n) : cord (dir, n, pixel);
  o_colour = vec4 (develop (light), 1.0) * v_place.z;
}
