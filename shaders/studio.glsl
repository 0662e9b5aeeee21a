// SPDX-License-Identifier: GPL-3.0-or-later
// The photographer's table: what a polished surface sees in a direction, and what falls on a dull one.

// A soft-edged square light. dir and to are unit; half_width is the tangent of half its angle.
float lamp_shape (vec3 dir, vec3 to, float half_width, float blur)
{
  float facing = dot (dir, to);
  vec3 across = normalize (vec3 (to.z, 0.0, -to.x));
  vec3 up = cross (to, across);
  vec2 at = abs (vec2 (dot (dir, across), dot (dir, up))) / max (facing, 0.05);
  vec2 edge = smoothstep (vec2 (half_width + blur), vec2 (half_width - blur), at);
  return facing > 0.0 ? edge.x * edge.y : 0.0;
}

// A tall, narrow light at the side.
float strip_shape (vec3 dir, vec3 to, float half_width, float blur)
{
  float facing = dot (dir, to);
  float across = abs (dir.x * to.z - dir.z * to.x) / max (facing, 0.05);
  return facing > 0.0 ? smoothstep (half_width + blur, half_width - blur, across)
                            * smoothstep (1.0, 0.5, abs (dir.y)) : 0.0;
}

vec3 room (vec3 dir)
{
  float h = dir.y;
  return h > 0.0 ? mix (u_horizon.rgb, u_sky.rgb, sqrt (h)) : mix (u_horizon.rgb, u_ground.rgb, sqrt (-h));
}

// The lights alone, as seen in a mirror that is `blur` dull.
vec3 lights (vec3 dir, float blur)
{
  return u_key.rgb * lamp_shape (dir, u_key_dir.xyz, u_key_dir.w, blur)
         + u_rim.rgb * strip_shape (dir, u_rim_dir.xyz, u_rim_dir.w, blur);
}

vec3 mirrored (vec3 dir, float blur)
{
  return room (dir) + lights (dir, blur);
}

// What falls on a dull surface that looks along n.
vec3 falling (vec3 n)
{
  vec3 around = mix (u_ground.rgb, u_sky.rgb, 0.5 + 0.5 * n.y) * 0.55 + u_horizon.rgb * 0.25;
  float key = max (dot (n, u_key_dir.xyz) * 0.85 + 0.15, 0.0);
  float rim = max (dot (n, u_rim_dir.xyz), 0.0);
  return around + u_key.rgb * key * u_key.w + u_rim.rgb * rim * u_rim.w;
}

float fresnel (float facing, float straight)
{
  float x = clamp (1.0 - facing, 0.0, 1.0);
  float x2 = x * x;
  return straight + (1.0 - straight) * x2 * x2 * x;
}

// Bright light rolls off instead of clipping, so that a highlight keeps its shape.
vec3 develop (vec3 light)
{
  vec3 over = max (light - 0.7, 0.0);
  return encode (min (light, 0.7) + 0.3 * over / (over + 0.3));
}
