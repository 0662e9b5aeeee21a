// SPDX-License-Identifier: GPL-3.0-or-later
// What bw_hidden_by_stone() tells, asked on the GPU for beads that are not sorted: the line of sight to
// the middle passes through the stone made thinner by the bead's own size. In the eye's space.
layout(std140) uniform Stone {
  vec4 u_plane[STONE_MOST]; // unit outward normal, distance from the eye
};
uniform int u_planes; // how many there are; 0: the stone is not shown

bool hidden (vec3 centre)
{
  float thinner = length (u_bead.xy), enter = 0.0, leave = 1.0;
  for (int i = 0; i < u_planes; i++) {
    float from = thinner - u_plane[i].w, to = dot (u_plane[i].xyz, centre) - u_plane[i].w + thinner;
    if (from > 0.0 && to > 0.0)
      return false;
    if (from > 0.0)
      enter = max (enter, from / (from - to));
    else if (to > 0.0)
      leave = min (leave, from / (from - to));
  }
  return u_planes > 0 && enter < leave;
}
