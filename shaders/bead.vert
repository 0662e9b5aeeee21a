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

// Each finish is told from the others by how it takes light, not by colour alone.
void set_finish (int finish)
{
  v_body = vec4 (0.96, 0.0, 0.0, 0.0);
  v_gloss = vec4 (0.0, 1.0, 0.05, 0.09);
  v_soft = vec2 (0.0);
  switch (finish) {
  case FINISH_MATTE:
    v_body = vec4 (0.93, 0.0, 0.0, 0.0);
    v_gloss = vec4 (0.0, 0.0, 0.0, 0.5);
    v_soft = vec2 (0.08, 0.0);
    break;
  case FINISH_CLEAR:
    v_body = vec4 (0.0, 1.0, 0.0, 0.0);
    v_gloss = vec4 (0.0, 1.0, 0.045, 0.04);
    break;
  case FINISH_FROSTED:
    v_body = vec4 (0.42, 0.58, 0.0, 0.0);
    v_gloss = vec4 (0.0, 0.10, 0.04, 0.5);
    v_soft = vec2 (0.22, 0.0);
    break;
  case FINISH_LINED:
    v_body = vec4 (0.0, 0.0, 1.0, 0.0);
    v_gloss = vec4 (0.0, 1.0, 0.05, 0.04);
    break;
  case FINISH_LUSTRE:
    v_body = vec4 (0.85, 0.0, 0.0, 1.0);
    v_gloss = vec4 (0.055, 0.25, 0.06, 0.25);
    break;
  case FINISH_METAL:
    v_body = vec4 (0.16, 0.0, 0.0, 0.0);
    v_gloss = vec4 (0.55, 0.35, 0.0, 0.16);
    v_soft = vec2 (0.0, 1.0);
    break;
  case FINISH_RAINBOW:
    v_body = vec4 (0.86, 0.0, 0.0, 1.5);
    v_gloss = vec4 (0.085, 0.60, 0.05, 0.16);
    break;
  case FINISH_GALVANISED:
    v_body = vec4 (0.46, 0.0, 0.0, 0.0);
    v_gloss = vec4 (0.26, 0.30, 0.0, 0.34);
    v_soft = vec2 (0.06, 0.9);
    break;
  case FINISH_SILVER_LINED:
    v_body = vec4 (0.0, 0.0, 1.45, 0.0);
    v_gloss = vec4 (0.0, 1.0, 0.05, 0.04);
    break;
  }
}

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
  set_finish (int (a_finish + 0.5));
  gl_Position = u_projection * vec4 (v_ray, 1.0);
}
