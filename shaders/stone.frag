// SPDX-License-Identifier: GPL-3.0-or-later
// The crystal. A ray enters through the face, is bent, and is followed from face to face until it
// leaves: that is what gives a real stone its inner edges. Where it leaves under the bed it shows the
// cord, as a stone in its band does. All in the eye's space.
in vec3 v_seen;
flat in vec3 v_normal;

layout(std140) uniform Stone {
  vec4 u_plane[STONE_PLANES]; // unit outward normal, distance from the eye
};
uniform sampler3D u_veil;
uniform vec4 u_cloud; // middle of the piece in its own space, one over its size
uniform vec2 u_worn;  // 1 when the bed shows, 1 when the band shows

out vec4 o_colour;

const float INDEX = 1.544; // quartz, ordinary ray

// Nearest face ahead of a point inside; xyz: its normal, w: the way there. The number of faces is a
// constant, so that a compiler can lay the loop out flat.
vec4 leave (vec3 from, vec3 dir)
{
  vec4 nearest = vec4 (0.0, 0.0, 1.0, 1e6);
  for (int i = 0; i < STONE_PLANES; i++) {
    vec4 plane = u_plane[i];
    float speed = dot (plane.xyz, dir);
    float way = (plane.w - dot (plane.xyz, from)) / max (speed, 1e-6);
    if (speed > 1e-6 && way < nearest.w)
      nearest = vec4 (plane.xyz, way);
  }
  nearest.w = max (nearest.w, 0.0);
  return nearest;
}

// Height over the base, from a point in the eye's space.
float height (vec3 seen)
{
  return dot (u_view[2].xyz, seen - u_view[3].xyz);
}

float between (float z, vec2 span, float soft)
{
  return clamp ((z - span.x) / soft + 0.5, 0.0, 1.0) * clamp ((span.y - z) / soft + 0.5, 0.0, 1.0);
}

// Milky veils: denser towards the base, thinning out into the point.
float cloud (vec3 seen)
{
  vec3 at = (seen - u_view[3].xyz) * mat3 (u_view);
  vec3 p = (at - u_cloud.xyz) * u_cloud.w;
  float veil = texture (u_veil, p * vec3 (1.3, 1.3, 0.8) + 0.5).r;
  return veil * clamp (0.46 - 0.6 * p.z, 0.0, 1.0);
}

// Shade that the band's edge throws on the stone beside it.
float edge_shade (float z)
{
  float out_of_band = max (max (u_spans.x - z, z - u_spans.y), 0.0);
  float below = z < u_spans.x ? 1.0 : 0.55;
  return 1.0 - u_worn.y * below * 0.75 * exp2 (-out_of_band * 1.3);
}

// Prism faces of quartz carry fine lines across the axis; they make every reflection shiver a little.
vec3 striated (vec3 n, float z)
{
  float steep = 1.0 - smoothstep (0.15, 0.35, abs (dot (n, u_view[2].xyz)));
  float lines = sin (z * 2.9 + 0.7 * sin (z * 0.83)) + 0.6 * sin (z * 7.3 + n.x * 9.0);
  return normalize (n + u_view[2].xyz * (lines * 0.012 * steep));
}

void main ()
{
  vec3 dir = normalize (v_seen), n = striated (v_normal, height (v_seen));
  float facing = max (dot (n, -dir), 0.0);
  float shade = edge_shade (height (v_seen));
  float mirror = fresnel (facing, 0.046);
  vec3 light = mirrored (reflect (dir, n), 0.03) * (mirror * shade);
  float open = 0.0; // share of the background that shows through
  vec3 colour = vec3 (1.0 - mirror);
  vec3 at = v_seen, way = refract (dir, v_normal, 1.0 / INDEX);
  for (int bounce = 0; bounce < STONE_BOUNCES; bounce++) {
    vec4 exit = leave (at, way);
    vec3 m = exit.xyz;
    if (bounce == 0) {
      float milk = 1.0 - exp2 (-exit.w * 0.032 * cloud (at + way * (exit.w * 0.4)));
      light += colour * falling (normalize (n + 0.4 * u_view[2].xyz)) * vec3 (0.60, 0.64, 0.68) * milk;
      colour *= 1.0 - milk;
    }
    colour *= exp2 (u_keeps.rgb * exit.w);
    at += way * exit.w;
    float z = height (at);
    float worn = max (u_worn.x * between (z, u_spans.zw, 0.1), u_worn.y * between (z, u_spans.xy, 0.1) * 0.8);
    // Cord behind the face: lit by what light the stone lets in.
    float turns = 0.8 + 0.4 * abs (fract (z / u_cord.w) - 0.5);
    light += colour * u_cord.rgb * falling (-m) * (0.42 * worn * turns);
    colour *= 1.0 - worn;
    vec3 away = refract (way, -m, INDEX);
    float leaves = dot (away, away) > 0.5 ? 1.0 - fresnel (dot (away, m), 0.046) : 0.0;
    vec3 outside = leaves > 0.0 ? away : way;
    float straight = smoothstep (0.2, 0.95, dot (away, dir)) * 0.74;
    light += colour * (lights (outside, 0.14) * 0.85 + room (outside) * (0.66 - 0.66 * straight)) * leaves;
    open += dot (colour, vec3 (0.3333)) * leaves * straight;
    colour *= 1.0 - leaves;
    way = reflect (way, m);
  }
  light += colour * room (way) * 0.5;
  vec3 shown = develop (light * mix (0.75, 1.0, shade));
  o_colour = vec4 (shown, max (1.0 - open, max (shown.r, max (shown.g, shown.b))));
}
