/* Every edge of one step, where the step asked for it. */
#ifndef BENCH_EDGES_H
#define BENCH_EDGES_H

#include "board.h"

#if BOARD_EDGES > 0

/* Forgets all edges: none are held for any step. */
void edges_clear(void);

/* Holds the edges of this step from now on. */
void edges_start(uint32_t number);

/* Keeps an edge of the running step, or counts it where there is no room. */
void edges_keep(uint32_t at_us, uint8_t watch, bool level);

bool edges_held(void);
bool edges_held_of(uint32_t number);
bool edges_held_below(uint32_t number);

/* Writes the body of an EDGES frame, from that index on. */
void edges_write(uint16_t from);

#else

static inline void edges_clear(void) {}

#endif
#endif
