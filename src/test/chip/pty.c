/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include "bench.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

static int master = -1;

void pty_begin(const char *link) {
  master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
  char name[128];
  if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0
      || ptsname_r(master, name, sizeof name) != 0) {
    die("no pseudo-terminal", strerror(errno));
  }
  int slave = open(name, O_RDWR | O_NOCTTY); /* kept open: without it the master reads an error between two hosts */
  struct termios raw;
  if (slave < 0 || tcgetattr(slave, &raw) != 0) {
    die("cannot open", name);
  }
  cfmakeraw(&raw);
  tcsetattr(slave, TCSANOW, &raw);
  unlink(link);
  if (symlink(name, link) != 0) {
    die("cannot link", link);
  }
}

int pty_fd(void) {
  return master;
}

void pty_poll(void) {
  uint8_t bytes[256];
  unsigned room = uart_room();
  ssize_t got = room == 0 ? 0 : read(master, bytes, room < sizeof bytes ? room : sizeof bytes);
  for (ssize_t i = 0; i < got; i++) {
    uart_put(bytes[i]);
  }
}

/* The host can be slower than the chip's answers for a while, never for good. */
void pty_send(uint8_t byte) {
  while (write(master, &byte, 1) != 1) {
    if (errno != EAGAIN && errno != EINTR) {
      return; /* nobody is there to hear it */
    }
    usleep(100);
  }
}
