// SPDX-License-Identifier: GPL-3.0-or-later
// One bead while the picture moves: the same tube with the same hole, its rims sharp, met without
// walking; one lamp, one gleam.
in vec3 v_way;
in vec3 v_from;
flat in vec4 v_side;
flat in vec4 v_up;
flat in vec3 v_key;
flat in vec3 v_gleam;
flat in vec3 v_base;
flat in vec3 v_lift;
flat in vec3 v_lamp;
flat in vec3 v_shine;
flat in vec3 v_inner;

out vec4 o_colour;

// develop(), with one root and no division: within 7/255 of it.
vec3 develop_soon (vec3 light)
{
  light *= EXPOSURE;
  vec3 c = min (light, 0.7) + clamp (0.5 * light - 0.35, 0.0, 0.25);
  vec3 s = sqrt (c);
  return s * (1.1 + s * (0.087 * s - 0.187));
}

void main ()
{
  // t = 0 is the quad itself, t = -1 the eye.
  float a = max (dot (v_way.xy, v_way.xy), 1e-9), b = dot (v_from.xy, v_way.xy);
  float off = dot (v_from.xy, v_from.xy);
  float outer = b * b - a * (off - u_bead.x * u_bead.x);
  float inner = b * b - a * (off - u_bead.z * u_bead.z);
  float one = 1.0 / a, middle = -b * one, root = sqrt (max (outer, 0.0)) * one;
  float slope = 1.0 / (abs (v_way.z) < 1e-6 ? 1e-6 : v_way.z);
  float end = u_bead.y * abs (slope), level = -v_from.z * slope;
  float enter = max (middle - root, level - end), leave = min (middle + root, level + end);
  float hole = sqrt (max (inner, 0.0)) * one;
  bool through = inner > 0.0 && middle - hole < enter;
  float t = through ? middle + hole : enter;
  if (outer <= 0.0 || t >= leave)
    discard;
  vec3 spot = v_from + v_way * t;
  vec3 n = through ? vec3 (spot.xy / -u_bead.z, 0.0) : vec3 (spot.xy / u_bead.x, 0.0);
  if (!through && enter > middle - root)
    n = vec3 (0.0, 0.0, sign (spot.z));

  float open = clamp (0.4 + 0.8 * n.x, 0.16, 1.0) * (through ? 0.3 : 1.0);
  open *= 0.6 + min (0.4, (2.2 / u_bead.y) * (u_bead.y - abs (spot.z)));
  float upward = dot (n, v_up.xyz), lamp = max (dot (n, v_key) + 0.18, 0.0);
  float gleam = clamp (1.0 - (1.0 - dot (n, v_gleam)) * v_up.w, 0.0, 1.0);
  float rim = 1.0 - dot (n, v_side.xyz);
  rim *= rim;
  vec3 light = v_base + v_lift * upward + v_lamp * lamp + v_shine * (gleam * gleam) + rim * rim * v_side.w;
  light = light * open + v_inner * (0.55 + 0.45 * open);
  o_colour = vec4 (develop_soon (light), 1.0);
  // So many times the quad's own distance along the view, whose reciprocal the rasteriser knows.
  gl_FragDepth = 0.5 - 0.5 * u_projection[2][2] + 0.5 * u_projection[3][2] * gl_FragCoord.w / (1.0 + t);
}
