/* Two-way byte streams of the host port: standard streams, an open descriptor, a pseudo-terminal, a socket file. */
#ifndef BENCH_HOST_CHANNEL_H
#define BENCH_HOST_CHANNEL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CHANNEL_BYTES 65536u

struct channel {
  int listener; /* -1, or a socket that waits for somebody */
  int in;       /* -1 while there is nobody */
  int out;
  bool for_good;     /* when the other end goes, the program ends */
  bool ended;
  size_t in_at;      /* bytes taken in, and how far they have been used */
  size_t in_end;
  size_t out_at;
  size_t out_end;
  uint8_t in_bytes[CHANNEL_BYTES];
  uint8_t out_bytes[CHANNEL_BYTES];
};

/*
 * Opens `stdio`, `fd:N`, `pty`, `pty:LINK` (a symbolic link to the terminal) or `unix:PATH` (waits there for one other
 * at a time); says on standard error what is wrong.
 */
bool channel_open(struct channel *channel, const char *spec);

/* Reads what is there and writes what can be written, without waiting. */
void channel_work(struct channel *channel);

bool channel_take(struct channel *channel, uint8_t *byte);
void channel_give(struct channel *channel, const void *bytes, size_t count);

/* Name of the pseudo-terminal that was opened last, or an empty text. */
const char *channel_terminal(void);

#endif
