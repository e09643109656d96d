/* What the host asks for. */
#ifndef BENCH_REQUESTS_H
#define BENCH_REQUESTS_H

#include "board.h"

/* Handles the frame in frame_in; false when it has to wait until an answer has gone out. */
bool requests_handle(void);

#endif
