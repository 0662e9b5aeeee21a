/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the shaders go. They bound time, not truth: more would not be seen. */
#pragma once

#define BW_GL_BOUNCES 3          /* faces a ray is followed to inside the stone */
#define BW_GL_BOUNCES_SOFTWARE 2 /* the same where the processor draws */
#define BW_GL_BEAD_STEPS 12      /* steps along a ray past a bead's rim or down its hole */
#define BW_GL_BEAD_STEPS_SOFTWARE 7
#define BW_GL_LOOSE_BEADS 20000 /* on a GPU, more than that are not sorted */
#define BW_GL_STRIP_MS 6.0  /* a strip of a better picture shall take so long between two events */
#define BW_GL_STRIP_ROWS 24 /* rows of the first one */
#define BW_GL_PLAIN_MOST 2500000 /* pixels; larger ones are drawn coarse while they move */
#define BW_GL_SMOOTH_MOST                                                                          \
  4000000                      /* pixels; larger ones are not drawn oversized by the processor     \
                                */
#define BW_GL_HALO_PIXELS 3.5f /* width of the ring round a bead pointed at */
#define BW_GL_DOT_PIXELS 4     /* a bead smaller than this on the screen is drawn as a dot */
