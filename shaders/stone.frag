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
uniform float u_striae; // lines on the faces of the prism: 0 none, 1 round it, 2 along it

#if STONE_NATURE
uniform vec4 u_needle[2 * NEEDLES_MAX]; // from, its radius; to
uniform vec4 u_chip[2 * CHIPS_MAX];     // on the edge, its radius; outward
uniform vec4 u_nature;                  // growth lines, lower end (0 plain, 1 frosted, 2 broken), needles, chips
uniform vec3 u_veil_shift;
#endif

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
  float high = p.z;
  p = p * vec3 (1.3, 1.3, 0.8) + 0.5;
#if STONE_NATURE
  p += u_veil_shift;
#endif
  float veil = texture (u_veil, p).r;
  return veil * clamp (0.46 - 0.6 * high, 0.0, 1.0);
}

// Shade that the band's edge throws on the stone beside it.
float edge_shade (float z)
{
  float out_of_band = max (max (u_spans.x - z, z - u_spans.y), 0.0);
  float below = z < u_spans.x ? 1.0 : 0.55;
  return 1.0 - u_worn.y * below * 0.75 * exp2 (-out_of_band * 1.3);
}

// Growth leaves lines on the faces of a prism, round it or along it as the mineral has them. The fine
// picture has the same, in the same places.
struct Lined {
  vec3 way;   // in which the face leans between them; nothing where there are none
  vec2 place; // across the lines and along them, mm
  float face; // tells one face from the next
};

Lined lined (vec3 n, vec3 seen)
{
  vec3 face = n * mat3 (u_view), at = (seen - u_view[3].xyz) * mat3 (u_view);
  vec3 up = vec3 (0.0, 0.0, 1.0), aside = vec3 (face.y, -face.x, 0.0);
  bool along = u_striae > 1.5;
  vec3 way = along ? aside : up, rest = along ? up : aside;
  float steep = min (u_striae, 1.0) * (1.0 - clamp ((abs (face.z) - 0.15) / 0.2, 0.0, 1.0));
  return Lined (mat3 (u_view) * way * steep, vec2 (dot (at, way), dot (at, rest)), face.x);
}

// The faint ones, which make every reflection shiver a little.
float faint (Lined on)
{
  float z = on.place.x;
  float lines = sin (z * 2.9 + 0.7 * sin (z * 0.83 + 3.0 * on.face)) + 0.6 * sin (z * 7.3 + on.face * 9.0);
  return 0.010 * (lines + 0.35 * sin (0.45 * z + 5.0 * on.face) * sin (0.8 * on.place.y));
}

// What has no lines is cut and polished: its faces swell a little, so that a light mirrored in one
// has an edge and does not fill it evenly. How much a face leans outward here.
vec3 swollen (vec3 n, vec3 seen)
{
  vec3 face = n * mat3 (u_view), at = (seen - u_view[3].xyz) * mat3 (u_view);
  vec3 aside = vec3 (face.y, -face.x, 0.0);
  float steep = max (1.0 - u_striae, 0.0) * (1.0 - clamp ((abs (face.z) - 0.15) / 0.2, 0.0, 1.0));
  vec3 lean = aside * (0.016 * dot (at, aside)) + vec3 (0.0, 0.0, 0.24 * (at.z * u_look.w - 0.5));
  return mat3 (u_view) * lean * steep;
}

#if STONE_NATURE
// Deep growth lines, closer and less even than the faint ones of every stone; where a line is finer
// than a pixel there is none.
float growth (Lined on, float pixel)
{
  float z = on.place.x, wander = z + 0.35 * sin (z * 0.7 + 5.0 * on.face);
  vec3 lines = sin (wander * vec3 (4.1, 9.7, 17.3) + on.face * vec3 (3.0, 7.0, 11.0));
  vec3 fine = clamp (1.3 - pixel * vec3 (4.1, 9.7, 17.3) * 0.6, 0.0, 1.0);
  float swell = 0.55 + 0.45 * sin (z * 0.9 + 4.0 * on.face);
  return u_nature.x * swell * dot (lines * fine, vec3 (0.18, 0.22, 0.17));
}

// A shell-shaped hollow: its ripples run round where the blow fell.
vec3 chipped (vec3 n, vec3 at, float pixel)
{
  for (int i = 0; i < int (u_nature.w); i++) {
    vec3 off = at - u_chip[2 * i].xyz, out_way = u_chip[2 * i + 1].xyz;
    float radius = u_chip[2 * i].w, away = length (off);
    radius *= 0.88 + 0.12 * sin (7.0 * dot (off, vec3 (0.7, 0.5, 0.3)) / radius + float (i));
    vec3 hollow = normalize (out_way * (0.8 * radius) - off * (1.0 + 0.25 * sin (16.0 * away / radius)));
    n = normalize (mix (n, hollow, smoothstep (radius, radius - 2.0 * pixel, away)));
  }
  return n;
}

bool is_base (vec3 n)
{
  return u_nature.y > 0.5 && dot (n, u_view[2].xyz) < -0.95;
}

// A broken end is a hilly ground.
vec3 broken (vec3 n, vec3 seen)
{
  vec3 at = (seen - u_view[3].xyz) * mat3 (u_view);
  vec2 hills = vec2 (0.0);
  for (int i = 0; i < 3; i++) {
    float size = 0.022 * float (1 << i);
    vec2 p = at.xy * size + u_veil_shift.xy + 0.37 * float (i);
    hills += vec2 (texture (u_veil, vec3 (p, 0.3)).r - texture (u_veil, vec3 (p + vec2 (0.02, 0.0), 0.3)).r,
                   texture (u_veil, vec3 (p, 0.3)).r - texture (u_veil, vec3 (p + vec2 (0.0, 0.02), 0.3)).r);
  }
  return normalize (n + 2.6 * mat3 (u_view) * vec3 (hills, 0.0));
}

// The needle a ray inside meets first within `most`; x: how much of the pixel it covers, y: its
// number, z: the way there.
vec3 needle (vec3 from, vec3 way, float most)
{
  vec3 met = vec3 (0.0, 0.0, most);
  for (int i = 0; i < int (u_nature.z); i++) {
    vec3 a = u_needle[2 * i].xyz, along = u_needle[2 * i + 1].xyz - a, off = from - a;
    float size = dot (along, along), lean = dot (way, along), ahead = dot (way, off);
    float depth = size - lean * lean;
    float t = (lean * dot (along, off) - size * ahead) / max (depth, 1e-6);
    float s = clamp ((dot (along, off) + t * lean) / size, 0.0, 1.0);
    t = s * lean - ahead;
    float near = length (off + t * way - s * along), pixel = 0.7 * u_screen.z * length (from + t * way);
    float radius = u_needle[2 * i].w, wide = max (radius, pixel);
    float cover = clamp ((wide + pixel - near) / (2.0 * pixel), 0.0, 1.0) * (radius / wide);
    if (cover > 0.02 && t > 0.0 && t < met.z)
      met = vec3 (cover, float (i), t);
  }
  return met;
}

const vec3 NEEDLE = vec3 (0.62, 0.40, 0.13);
#endif

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
  return 1.0 - 0.74 * smoothstep (0.42, 0.62, aside) * (1.0 - smoothstep (0.90, 0.985, aside));
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
  Lined on = lined (v_normal, v_seen);
  vec3 dir = normalize (v_seen), into = v_normal;
  vec3 n = normalize (v_normal + on.way * faint (on) + swollen (v_normal, v_seen));
#if STONE_NATURE
  float pixel = u_screen.z * length (v_seen), dull = 0.0;
  vec3 deep = on.way * growth (on, pixel);
  into = chipped (normalize (into + 0.6 * deep), v_seen, pixel);
  n = chipped (normalize (n + deep), v_seen, pixel);
  if (is_base (v_normal)) {
    dull = u_nature.y > 1.5 ? 0.25 : 0.88;
    if (u_nature.y > 1.5)
      n = into = broken (n, v_seen);
  }
#endif
  float facing = max (dot (n, -dir), 0.0);
  float shade = edge_shade (height (v_seen));
  float mirror = fresnel (facing, u_index.w);
  vec3 light = mirrored (reflect (dir, n), 0.03) * (mirror * shade);
  vec3 open = vec3 (0.0); // shares of what lies behind that show through
  vec3 colour = vec3 (1.0 - mirror);
#if STONE_NATURE
  // Ground glass: white where light falls on it, and little seen through.
  light = mix (light, falling (n) * exp2 (u_keeps.rgb * 6.0) * (0.85 * shade), dull);
  colour *= 1.0 - dull;
#endif
  vec3 at = v_seen, way = refract (dir, into, 1.0 / u_index.g);
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
#if STONE_NATURE
    vec3 rod = needle (at, way, exit.w);
    if (rod.x > 0.0) {
      vec3 lit = falling (normalize (-way + 0.4 * u_view[2].xyz)) * exp2 (u_keeps.rgb * rod.z);
      light += colour * NEEDLE * lit * (0.9 * rod.x);
      colour *= 1.0 - rod.x;
    }
#endif
    colour *= exp2 (u_keeps.rgb * (exit.w * depth_of_colour (height (middle))));
    at += way * exit.w;
#if STONE_NATURE
    if (is_base (m)) {
      float ground = u_nature.y > 1.5 ? 0.35 : 0.8;
      light += colour * (0.5 * room (u_view[2].xyz) + 0.28 * falling (-m)) * ground;
      colour *= 1.0 - ground;
    }
    m = chipped (m, at, pixel);
    m = dot (m, way) > 0.02 ? m : exit.xyz;
#endif
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
