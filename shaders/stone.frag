// SPDX-License-Identifier: GPL-3.0-or-later
// The crystal. A ray enters through the face, is bent, and is followed from face to face until it
// leaves: that is what gives a real stone its inner edges. Where it leaves under the bed it shows the
// cord, as a stone in its band does.
in vec3 v_at;
flat in vec3 v_normal;

layout(std140) uniform Stone {
  vec4 u_plane[STONE_PLANES];
};
uniform int u_planes;
uniform sampler3D u_veil;
uniform vec4 u_cloud; // middle of the piece, one over its size
uniform vec2 u_worn;  // 1 when the bed shows, 1 when the band shows

out vec4 o_colour;

const float INDEX = 1.544; // quartz, ordinary ray

// Nearest face ahead of a point inside; x: distance, y: which.
vec2 leave (vec3 from, vec3 dir)
{
  float nearest = 1e6, which = 0.0;
  for (int i = 0; i < u_planes; i++) {
    float speed = dot (u_plane[i].xyz, dir);
    float t = (u_plane[i].w - dot (u_plane[i].xyz, from)) / max (speed, 1e-6);
    if (speed > 1e-6 && t < nearest) {
      nearest = t;
      which = float (i);
    }
  }
  return vec2 (max (nearest, 0.0), which);
}

float between (float z, vec2 span, float soft)
{
  return smoothstep (span.x - soft, span.x + soft, z) * smoothstep (span.y + soft, span.y - soft, z);
}

// Milky veils: denser towards the base, thinning out into the point.
float cloud (vec3 at)
{
  vec3 p = (at - u_cloud.xyz) * u_cloud.w;
  float veil = texture (u_veil, p * vec3 (1.3, 1.3, 0.8) + 0.5).r;
  float fine = texture (u_veil, p * vec3 (3.1, 2.7, 2.1)).r;
  return smoothstep (0.45, 0.85, veil * 0.7 + fine * 0.3) * smoothstep (0.75, -0.9, p.z);
}

// Shade that the band's edge throws on the stone beside it.
float edge_shade (float z)
{
  float out_of_band = max (max (u_spans.x - z, z - u_spans.y), 0.0);
  float below = z < u_spans.x ? 1.0 : 0.55;
  return 1.0 - u_worn.y * below * 0.75 * exp (-out_of_band * 0.9);
}

void main ()
{
  vec3 dir = normalize (v_at - u_eye.xyz);
  vec3 n = v_normal;
  mat3 turn = mat3 (u_view);
  float facing = max (dot (n, -dir), 0.0);
  float shade = edge_shade (v_at.z);
  float mirror = fresnel (facing, 0.046);
  vec3 light = mirrored (turn * reflect (dir, n), 0.03) * mirror * shade;
  float open = 0.0; // share of the background that shows through
  float kept = 1.0 - mirror;
  vec3 at = v_at;
  vec3 way = refract (dir, n, 1.0 / INDEX);
  vec3 colour = vec3 (kept);
  for (int bounce = 0; bounce < STONE_BOUNCES; bounce++) {
    vec2 exit = leave (at, way);
    vec3 m = u_plane[int (exit.y + 0.5)].xyz;
    float milk = 1.0 - exp (-exit.x * 0.035 * (cloud (at + way * exit.x * 0.2)
                                              + cloud (at + way * exit.x * 0.6)));
    vec3 veil = falling (turn * normalize (v_normal + vec3 (0.0, 0.0, 0.4))) * vec3 (0.80, 0.85, 0.90);
    light += colour * milk * veil * 0.75;
    colour *= (1.0 - milk) * pow (u_keeps.rgb, vec3 (exit.x * 0.1));
    at += way * exit.x;
    float worn = max (u_worn.x * between (at.z, u_spans.zw, 0.05),
                      u_worn.y * between (at.z, u_spans.xy, 0.05) * 0.8);
    // Cord behind the face: lit by what light the stone lets in.
    float turns = 0.75 + 0.25 * cos (6.2831853 * at.z / u_cord.w);
    light += colour * worn * u_cord.rgb * turns * falling (turn * -m) * 0.42;
    colour *= 1.0 - worn;
    vec3 away = refract (way, -m, INDEX);
    float leaves = dot (away, away) > 0.5 ? 1.0 - fresnel (dot (away, m), 0.046) : 0.0;
    vec3 outside = turn * (leaves > 0.0 ? away : way);
    float straight = smoothstep (0.2, 0.95, dot (away, dir)) * 0.62;
    light += colour * leaves * (lights (outside, 0.10) * 0.55 + room (outside) * (1.0 - straight) * 0.62);
    open += dot (colour, vec3 (0.3333)) * leaves * straight;
    colour *= 1.0 - leaves;
    way = reflect (way, m);
  }
  light += colour * room (turn * way) * 0.5;
  vec3 shown = develop (light * mix (0.75, 1.0, shade));
  o_colour = vec4 (shown, max (1.0 - open, max (shown.r, max (shown.g, shown.b))));
}
