// SPDX-License-Identifier: GPL-3.0-or-later
// How each finish takes light.

struct Looks {
  vec4 body;  // shares: dull skin, seen through, lining, film
  vec4 gloss; // mirror: always, by fresnel, straight on, blur
  vec2 soft;  // pale rim, metal
};

// Each finish is told from the others by how it takes light, not by colour alone.
Looks looks_of (int finish)
{
  Looks looks = Looks (vec4 (0.96, 0.0, 0.0, 0.0), vec4 (0.0, 1.0, 0.05, 0.09), vec2 (0.0));
  switch (finish) {
  case FINISH_MATTE:
    looks.body = vec4 (0.93, 0.0, 0.0, 0.0);
    looks.gloss = vec4 (0.0, 0.0, 0.0, 0.5);
    looks.soft = vec2 (0.08, 0.0);
    break;
  case FINISH_CLEAR:
    looks.body = vec4 (0.0, 1.0, 0.0, 0.0);
    looks.gloss = vec4 (0.0, 1.0, 0.045, 0.04);
    break;
  case FINISH_FROSTED:
    looks.body = vec4 (0.42, 0.58, 0.0, 0.0);
    looks.gloss = vec4 (0.0, 0.10, 0.04, 0.5);
    looks.soft = vec2 (0.22, 0.0);
    break;
  case FINISH_LINED:
    looks.body = vec4 (0.0, 0.0, 1.0, 0.0);
    looks.gloss = vec4 (0.0, 1.0, 0.05, 0.04);
    break;
  case FINISH_LUSTRE:
    looks.body = vec4 (0.85, 0.0, 0.0, 1.0);
    looks.gloss = vec4 (0.055, 0.25, 0.06, 0.25);
    break;
  case FINISH_METAL:
    looks.body = vec4 (0.16, 0.0, 0.0, 0.0);
    looks.gloss = vec4 (0.55, 0.35, 0.0, 0.16);
    looks.soft = vec2 (0.0, 1.0);
    break;
  case FINISH_RAINBOW:
    looks.body = vec4 (0.86, 0.0, 0.0, 1.5);
    looks.gloss = vec4 (0.085, 0.60, 0.05, 0.16);
    break;
  case FINISH_GALVANISED:
    looks.body = vec4 (0.46, 0.0, 0.0, 0.0);
    looks.gloss = vec4 (0.26, 0.30, 0.0, 0.34);
    looks.soft = vec2 (0.06, 0.9);
    break;
  case FINISH_SILVER_LINED:
    looks.body = vec4 (0.0, 0.0, 1.45, 0.0);
    looks.gloss = vec4 (0.0, 1.0, 0.05, 0.04);
    break;
  }
  return looks;
}
