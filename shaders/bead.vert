// SPDX-License-Identifier: GPL-3.0-or-later
// One quad per bead, facing the eye and just large enough for the cylinder as it is seen. What depends
// on the bead alone is worked out here, once for its four corners.
in vec3 a_at;
in vec3 a_axis;
in vec3 a_out;
in vec3 a_colour;
in float a_finish;

uniform float u_halo; // room for the ring round a bead that is pointed at, in pixels

out vec3 v_ray;
flat out vec3 v_centre;
flat out vec3 v_axis;
flat out vec3 v_out;
flat out vec3 v_colour;
flat out vec3 v_glass;  // logarithm of what one diameter of this glass keeps
flat out vec3 v_behind; // light on what lies behind the bead
flat out vec4 v_body;   // shares: dull skin, seen through, lining, film
flat out vec4 v_gloss;  // mirror: always, by fresnel, straight on, blur
flat out vec2 v_soft;   // pale rim, metal

void main ()
{
  vec3 centre = (u_view * vec4 (a_at, 1.0)).xyz;
  vec3 axis = mat3 (u_view) * a_axis;
  float away = length (centre);
  vec3 forward = centre / away;
  float along = dot (axis, forward);
  vec3 side = axis - along * forward;
  float seen = length (side);
  vec3 across = abs (forward.x) < 0.7 ? vec3 (1.0, 0.0, 0.0) : vec3 (0.0, 1.0, 0.0);
  vec3 u = seen > 1e-3 ? side / seen : normalize (cross (forward, across));
  vec3 v = cross (forward, u);
  // The near side of the bead looks larger than its middle.
  float grow = away / max (away - length (u_bead.xy), 1e-3);
  float margin = u_screen.z * away * (0.6 + u_halo);
  vec2 half_size = vec2 (u_bead.y * seen + u_bead.x * abs (along), u_bead.x) * grow + margin;
  vec2 corner = vec2 (float (gl_VertexID & 1), float (gl_VertexID >> 1)) * 2.0 - 1.0;
  v_ray = centre + u * corner.x * half_size.x + v * corner.y * half_size.y;
  v_centre = centre;
  v_axis = axis;
  v_out = mat3 (u_view) * a_out;
  // No two beads are quite alike.
  float own = fract (sin (dot (a_at, vec3 (12.9, 78.2, 37.7))) * 43758.5);
  v_colour = a_colour * (0.97 + 0.06 * own);
  v_glass = log2 (max (v_colour, vec3 (0.004)));
  v_behind = u_cord.rgb * 0.24 + falling (v_out) * 0.32;
  Looks looks = looks_of (int (a_finish + 0.5));
  v_body = looks.body;
  v_gloss = looks.gloss;
  v_soft = looks.soft;
  gl_Position = u_projection * vec4 (v_ray, 1.0);
}
