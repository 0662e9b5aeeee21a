// SPDX-License-Identifier: GPL-3.0-or-later
// The bead as a shape: a tube with rounded rims, met by a ray.

// The ray in the bead's own terms: distance from the axis and height over the middle at t.
struct Profile {
  float a, b, c;
  float h, slope;
};

Profile profile (vec3 from, vec3 dir, vec3 axis)
{
  float h = dot (from, axis), slope = dot (dir, axis);
  vec3 off = from - h * axis, way = dir - slope * axis;
  return Profile (max (dot (way, way), 1e-7), dot (off, way), dot (off, off), h, slope);
}

vec2 at (Profile p, float t)
{
  return vec2 (sqrt (max (p.a * t * t + 2.0 * p.b * t + p.c, 0.0)), p.h + p.slope * t);
}

// The wall of the tube is a rounded rectangle in (distance from axis, height).
vec2 wall_excess (vec2 q)
{
  float middle = 0.5 * (u_bead.x + u_bead.z), half_wall = 0.5 * (u_bead.x - u_bead.z);
  return vec2 (abs (q.x - middle) - half_wall, abs (q.y) - u_bead.y) + u_bead.w;
}

float wall (vec2 q)
{
  vec2 e = wall_excess (q);
  return length (max (e, 0.0)) + min (max (e.x, e.y), 0.0) - u_bead.w;
}

// Outward direction of the wall at q, in the same terms.
vec2 wall_normal (vec2 q)
{
  float middle = 0.5 * (u_bead.x + u_bead.z);
  vec2 e = wall_excess (q);
  vec2 n = max (e.x, e.y) > 0.0 ? max (e, 0.0) : vec2 (step (e.y, e.x), step (e.x, e.y));
  return normalize (n) * vec2 (q.x < middle ? -1.0 : 1.0, q.y < 0.0 ? -1.0 : 1.0);
}

// Where the ray runs inside a plain cylinder a little larger than the bead; x > y: nowhere.
vec2 reach (Profile p, float radius, float half_length)
{
  float disc = p.b * p.b - p.a * (p.c - radius * radius);
  float root = sqrt (max (disc, 0.0));
  vec2 round_side = vec2 (-p.b - root, -p.b + root) / p.a;
  float slope = abs (p.slope) < 1e-6 ? 1e-6 : p.slope;
  vec2 ends = (vec2 (-half_length, half_length) - p.h) / slope;
  ends = vec2 (min (ends.x, ends.y), max (ends.x, ends.y));
  return disc < 0.0 ? vec2 (1.0, 0.0) : vec2 (max (round_side.x, ends.x), min (round_side.y, ends.y));
}

// Walks the ray; x: where it comes nearest to the wall, y: how near, `shrink` inside of it.
vec2 walk (Profile p, vec2 span, float shrink, float fine)
{
  float t = span.x, best = span.x, least = 1e6;
  for (int i = 0; i < BEAD_STEPS; i++) {
    float free_way = wall (at (p, t)) + shrink;
    if (free_way < least) {
      least = free_way;
      best = t;
    }
    if (free_way < fine || t > span.y)
      break;
    t += free_way;
  }
  return vec2 (best, least);
}
