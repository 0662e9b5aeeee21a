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

// What a face inside lets out of light that meets it so straight (cosine): Fresnel's formulae for
// light of no one polarisation, nothing beyond the angle of total reflection.
float let_out (float straight, float index)
{
  float sine2 = index * index * (1.0 - straight * straight);
  float out_straight = sqrt (max (1.0 - sine2, 0.0));
  float across = (index * straight - out_straight) / (index * straight + out_straight);
  float along = (straight - index * out_straight) / (straight + index * out_straight);
  return 1.0 - 0.5 * (across * across + along * along);
}

// A photographer stands black cards beside clear glass, out of the picture: it mirrors and bends them
// at its edges, and so is told from a pale ground.
float cards (vec3 dir)
{
  float aside = abs (dir.x);
  return 1.0 - 0.85 * smoothstep (0.42, 0.62, aside) * (1.0 - smoothstep (0.90, 0.985, aside));
}

// What the eye sees along a ray that has left the stone, the lights with it. It is bent otherwise for
// every colour.
vec3 beyond (vec3 way, vec3 m, vec3 away)
{
  vec3 dim = room (away) * (0.66 * cards (away));
  vec3 red = refract (way, -m, u_index.r), blue = refract (way, -m, u_index.b);
  red = dot (red, red) > 0.5 ? red : away;
  blue = dot (blue, blue) > 0.5 ? blue : away;
  return dim + 0.85 * vec3 (lights (red, 0.10).r, lights (away, 0.10).g, lights (blue, 0.10).b);
}

// Colour lies deeper in one part of a stone than in another.
float depth_of_colour (float z)
{
  return max (1.0 + u_look.x * (2.0 * z * u_look.w - 1.0), 0.0);
}

void main ()
{
  vec3 dir = normalize (v_seen), n = striated (v_normal, height (v_seen));
  float facing = max (dot (n, -dir), 0.0);
  float shade = edge_shade (height (v_seen));
  float mirror = fresnel (facing, u_index.w);
  vec3 light = mirrored (reflect (dir, n), 0.03) * (mirror * shade);
  vec3 open = vec3 (0.0); // shares of what lies behind that show through
  vec3 colour = vec3 (1.0 - mirror);
  vec3 at = v_seen, way = refract (dir, v_normal, 1.0 / u_index.g);
  for (int bounce = 0; bounce < STONE_BOUNCES; bounce++) {
    vec4 exit = leave (at, way);
    vec3 m = exit.xyz, middle = at + way * (exit.w * 0.5);
    if (bounce == 0) {
      float veil = u_look.z * 2.0 * cloud (at + way * (exit.w * 0.4)) + u_look.y;
      float milk = 1.0 - exp2 (-1.4427 * exit.w * veil);
      vec3 body = exp2 (u_keeps.rgb * (16.0 * depth_of_colour (height (middle))));
      light += colour * falling (normalize (n + 0.4 * u_view[2].xyz)) * body * (0.66 * milk);
      colour *= 1.0 - milk;
    }
    colour *= exp2 (u_keeps.rgb * (exit.w * depth_of_colour (height (middle))));
    at += way * exit.w;
    float z = height (at);
    float worn = max (u_worn.x * between (z, u_spans.zw, 0.1), u_worn.y * between (z, u_spans.xy, 0.1) * 0.8);
    // Cord behind the face: lit by what light the stone lets in.
    float turns = 0.8 + 0.4 * abs (fract (z / u_cord.w) - 0.5);
    light += colour * u_cord.rgb * falling (-m) * (0.42 * worn * turns);
    colour *= 1.0 - worn;
    vec3 away = refract (way, -m, u_index.g);
    float leaves = let_out (dot (way, m), u_index.g);
    vec3 outside = dot (away, away) > 0.5 ? away : way;
    float straight = smoothstep (0.2, 0.95, dot (outside, dir)) * u_behind.w * leaves;
    light += colour * beyond (way, m, outside) * (leaves - straight);
    open += colour * straight;
    colour *= 1.0 - leaves;
    way = reflect (way, m);
  }
  light += colour * room (way) * (0.5 * cards (way));
  // The picture is laid on its ground as it is, without reckoning light: so the ground's part is taken
  // off again of what both give together.
  light *= mix (0.75, 1.0, shade);
  float clear = dot (open, vec3 (0.3333));
  vec3 shown = max (develop (light + open * u_behind.rgb / EXPOSURE) - clear * encode (u_behind.rgb), 0.0);
  o_colour = vec4 (shown, max (1.0 - clear, max (shown.r, max (shown.g, shown.b))));
}
