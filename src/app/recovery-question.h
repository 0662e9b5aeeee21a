/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The question after a crash: take the unsaved work back, or let it go. */
#pragma once

#include "app/window/window.h"

/* Asks on this window when there is something to ask about. */
void bw_recovery_question_ask (BwWindow *window);
