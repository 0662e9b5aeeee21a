// SPDX-License-Identifier: GPL-3.0-or-later
// The photographer's table: what a polished surface sees in a direction, and what falls on a dull one.

const float MIRRORED_LIGHTS = 2.4;
const float EXPOSURE = 1.10;

// A tall window with soft edges, reaching down to eye level so that upright tubes mirror it.
float window_shape (vec3 dir, float blur)
{
  float facing = dot (dir, u_key_dir.xyz);
  vec2 at = abs (vec2 (dot (dir, u_key_across.xyz), dot (dir, u_key_up.xyz))) / max (facing, 0.05);
  vec2 size = vec2 (u_key_dir.w, 3.2 * u_key_dir.w);
  vec2 edge = smoothstep (size + blur, size - blur, at);
  return facing > 0.0 ? edge.x * edge.y : 0.0;
}

// A tall, narrow light at the side.
float strip_shape (vec3 dir, float blur)
{
  float facing = dot (dir, u_rim_dir.xyz);
  float across = abs (dir.x * u_rim_dir.z - dir.z * u_rim_dir.x) / max (facing, 0.05);
  float shape = smoothstep (u_rim_dir.w + blur, u_rim_dir.w - blur, across)
                * smoothstep (1.0, 0.5, abs (dir.y));
  return facing > 0.0 ? shape : 0.0;
}

vec3 room (vec3 dir)
{
  vec3 end = dir.y > 0.0 ? u_sky.rgb : u_ground.rgb;
  return mix (u_horizon.rgb, end, sqrt (abs (dir.y)));
}

// The lights alone, as seen in a mirror that is `blur` dull.
vec3 lights (vec3 dir, float blur)
{
  return u_key.rgb * window_shape (dir, blur) + u_rim.rgb * strip_shape (dir, blur);
}

// A polished face mirrors the lights themselves, which are far brighter than what they light.
vec3 mirrored (vec3 dir, float blur)
{
  return room (dir) + lights (dir, blur) * MIRRORED_LIGHTS;
}

// What falls on a dull surface that looks along n.
vec3 falling (vec3 n)
{
  vec3 around = mix (u_ground.rgb, u_sky.rgb, 0.5 + 0.5 * n.y) * 0.62 + u_horizon.rgb * 0.30;
  float key = max (dot (n, u_key_dir.xyz) * 0.85 + 0.15, 0.0);
  float rim = max (dot (n, u_rim_dir.xyz), 0.0);
  return around + u_key.rgb * (key * u_key_dir.w) + u_rim.rgb * (rim * u_rim_dir.w);
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
  light *= EXPOSURE;
  vec3 over = max (light - 0.7, 0.0);
  return encode (min (light, 0.7) + 0.3 * over / (over + 0.3));
}
