// SPDX-License-Identifier: GPL-3.0-or-later
// The quad of bead.vert, for a bead that is lit simply while the picture moves. The ray is told in the
// bead's own axes (outward, round, along the hole), where meeting a tube is a few products; the lights
// are turned into them, and into the bead's colour, once a bead.
in vec3 a_at;
in vec3 a_axis;
in vec3 a_out;
in vec3 a_colour;
in float a_finish;

out vec3 v_way;        // from the eye to this corner, in the bead's axes
out vec3 v_from;       // from the middle of the bead to this corner: small numbers, told exactly
flat out vec4 v_side;  // to the eye, unit; w: how much the rim mirrors of the room
flat out vec4 v_up;    // the room's vertical; w: how narrow the gleam is
flat out vec3 v_key;   // to the big light
flat out vec3 v_gleam; // the place on the wall that mirrors the big light
flat out vec3 v_base;  // light of the skin wherever it looks
flat out vec3 v_lift;  // what it gains by looking up
flat out vec3 v_lamp;  // what it gains by looking to the big light
flat out vec3 v_shine; // light of the mirrored lamp
flat out vec3 v_inner; // light from inside the bead

void main ()
{
  vec3 centre = (u_view * vec4 (a_at, 1.0)).xyz;
  vec3 axis = mat3 (u_view) * a_axis, outward = mat3 (u_view) * a_out;
  float away = length (centre);
  vec3 forward = centre / away;
  float along = dot (axis, forward);
  vec3 side = axis - along * forward;
  float seen = length (side);
  vec3 across = abs (forward.x) < 0.7 ? vec3 (1.0, 0.0, 0.0) : vec3 (0.0, 1.0, 0.0);
  vec3 u = seen > 1e-3 ? side / seen : normalize (cross (forward, across));
  vec3 v = cross (forward, u);
  float grow = away / max (away - length (u_bead.xy), 1e-3);
  vec2 half_size = vec2 (u_bead.y * seen + u_bead.x * abs (along), u_bead.x) * grow;
  vec2 corner = vec2 (float (gl_VertexID & 1), float (gl_VertexID >> 1)) * 2.0 - 1.0;
  vec3 ray = centre + u * corner.x * half_size.x + v * corner.y * half_size.y;
  gl_Position = u_projection * vec4 (ray, 1.0);

  mat3 own = transpose (mat3 (outward, cross (axis, outward), axis));
  v_way = own * ray;
  v_from = own * (ray - centre);
  v_side.xyz = own * -forward;
  v_up.xyz = own[1];
  v_key = own * u_key_dir.xyz;
  vec3 half_way = own * (u_key_dir.xyz - forward);
  v_gleam = vec3 (half_way.xy / max (length (half_way.xy), 1e-3), 0.0);

  Looks looks = looks_of (int (a_finish + 0.5));
  float own_shade = fract (sin (dot (a_at, vec3 (12.9, 78.2, 37.7))) * 43758.5);
  vec3 colour = a_colour * (0.97 + 0.06 * own_shade);
  vec3 skin = colour * looks.body.x + mix (colour, vec3 (0.9), 0.55) * (0.4 * looks.soft.x);
  v_base = skin * ((u_sky.rgb + u_ground.rgb) * 0.31 + u_horizon.rgb * 0.30);
  v_lift = skin * ((u_sky.rgb - u_ground.rgb) * 0.31);
  v_lamp = skin * u_key.rgb * (0.85 * u_key_dir.w);
  vec3 behind = u_cord.rgb * 0.24 + falling (outward) * 0.32;
  vec3 kept = exp2 (log2 (max (colour, vec3 (0.004))) * 0.9);
  vec3 lining = mix (vec3 (0.82) * behind, colour * (0.5 + 1.6 * behind), 0.6);
  v_inner = kept * behind * (0.86 * looks.body.y) + lining * (0.8 * min (looks.body.z, 1.0));
  vec3 tint = mix (vec3 (1.0), colour, looks.soft.y);
  float mirror = looks.gloss.x + looks.gloss.y * looks.gloss.z;
  v_shine = u_key.rgb * tint * (0.5 * MIRRORED_LIGHTS * mirror);
  v_inner += u_horizon.rgb * tint * mirror;
  v_side.w = 0.5 * looks.gloss.y * u_horizon.g;
  v_up.w = mix (35.0, 11.0, smoothstep (0.1, 0.5, looks.gloss.w));
}
