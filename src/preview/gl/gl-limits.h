/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the shaders go. They bound time, not truth: more would not be seen. */
#pragma once

#define BW_GL_BOUNCES 3          /* faces a ray is followed to inside the stone */
#define BW_GL_BOUNCES_SOFTWARE 2 /* the same where the processor draws */
#define BW_GL_BEAD_STEPS 12      /* steps along a ray past a bead's rim or down its hole */
#define BW_GL_BEAD_STEPS_SOFTWARE 7
#define BW_GL_SLOW_MS 22.0     /* a frame that takes longer may be coarse while turning */
#define BW_GL_REST_MS 320.0    /* at rest a picture may take so long once, to be smooth */
#define BW_GL_HALO_PIXELS 3.5f /* width of the ring round a bead pointed at */
#define BW_GL_DOT_PIXELS 4     /* a bead smaller than this on the screen is drawn as a dot */
