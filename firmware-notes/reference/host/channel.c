#include "channel.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <termios.h>
#include <unistd.h>

static char terminal[128];

const char *channel_terminal(void) {
  return terminal;
}

static void be_patient(int fd) {
  (void)fcntl(fd, F_SETFL, fcntl(fd, F_GETFL) | O_NONBLOCK);
}

/* The slave is kept open too, or the master would read an error whenever the other end closes. */
static bool open_terminal(struct channel *channel, const char *link_path) {
  int master = posix_openpt(O_RDWR | O_NOCTTY);
  if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0 ||
      ptsname_r(master, terminal, sizeof terminal) != 0) {
    perror("pseudo-terminal");
    return false;
  }
  int slave = open(terminal, O_RDWR | O_NOCTTY);
  struct termios settings;
  if (slave < 0 || tcgetattr(slave, &settings) != 0) {
    perror(terminal);
    return false;
  }
  cfmakeraw(&settings);
  (void)tcsetattr(slave, TCSANOW, &settings);
  channel->in = master;
  channel->out = master;
  if (link_path != NULL) {
    (void)unlink(link_path);
    if (symlink(terminal, link_path) != 0) {
      perror(link_path);
      return false;
    }
  }
  return true;
}

/* Made under another name first: where a socket is seen by its own name somebody listens already. */
static bool open_socket(struct channel *channel, const char *path) {
  struct sockaddr_un address = {.sun_family = AF_UNIX};
  if (strlen(path) + sizeof ".new" > sizeof address.sun_path) {
    fprintf(stderr, "%s: too long for the name of a socket\n", path);
    return false;
  }
  strcpy(address.sun_path, path);
  strcat(address.sun_path, ".new");
  (void)unlink(address.sun_path);
  channel->listener = socket(AF_UNIX, SOCK_STREAM, 0);
  if (channel->listener < 0 ||
      bind(channel->listener, (struct sockaddr *)&address, sizeof address) != 0 ||
      listen(channel->listener, 1) != 0 || rename(address.sun_path, path) != 0) {
    perror(path);
    return false;
  }
  be_patient(channel->listener);
  return true;
}

bool channel_open(struct channel *channel, const char *spec) {
  memset(channel, 0, sizeof *channel);
  channel->listener = -1;
  channel->in = -1;
  channel->out = -1;
  if (strcmp(spec, "pty") == 0) {
    return open_terminal(channel, NULL);
  }
  if (strncmp(spec, "pty:", 4) == 0) {
    return open_terminal(channel, spec + 4);
  }
  if (strncmp(spec, "unix:", 5) == 0) {
    return open_socket(channel, spec + 5);
  }
  if (strcmp(spec, "stdio") == 0) {
    channel->in = STDIN_FILENO;
    channel->out = STDOUT_FILENO;
  } else if (strncmp(spec, "fd:", 3) == 0) {
    channel->in = atoi(spec + 3);
    channel->out = channel->in;
  } else {
    fprintf(stderr, "'%s': wanted stdio, fd:N, pty, pty:LINK or unix:PATH\n", spec);
    return false;
  }
  channel->for_good = true;
  return true;
}

static void hang_up(struct channel *channel) {
  if (channel->for_good) {
    channel->ended = true;
  }
  if (channel->listener >= 0 && channel->in >= 0) {
    (void)close(channel->in);
    channel->in = -1;
    channel->out = -1;
  }
  channel->out_at = 0;
  channel->out_end = 0;
}

static bool ready(int fd, short what) {
  struct pollfd asked = {.fd = fd, .events = what};
  return poll(&asked, 1, 0) > 0 && (asked.revents & (what | POLLHUP | POLLERR)) != 0;
}

static void read_some(struct channel *channel) {
  if (channel->in_at == channel->in_end) {
    channel->in_at = 0;
    channel->in_end = 0;
  }
  if (channel->in_end == CHANNEL_BYTES || !ready(channel->in, POLLIN)) {
    return;
  }
  ssize_t count =
      read(channel->in, channel->in_bytes + channel->in_end, CHANNEL_BYTES - channel->in_end);
  if (count > 0) {
    channel->in_end += (size_t)count;
  } else if (count == 0 || (errno != EAGAIN && errno != EINTR)) {
    hang_up(channel);
  }
}

static void write_some(struct channel *channel) {
  while (channel->out >= 0 && channel->out_at < channel->out_end && ready(channel->out, POLLOUT)) {
    size_t left = channel->out_end - channel->out_at;
    ssize_t count = write(channel->out, channel->out_bytes + channel->out_at, left < 512 ? left : 512);
    if (count <= 0) {
      if (errno != EAGAIN && errno != EINTR) {
        hang_up(channel);
      }
      break;
    }
    channel->out_at += (size_t)count;
  }
  if (channel->out_at == channel->out_end) {
    channel->out_at = 0;
    channel->out_end = 0;
  }
}

void channel_work(struct channel *channel) {
  if (channel->listener >= 0 && channel->in < 0 && ready(channel->listener, POLLIN)) {
    channel->in = accept(channel->listener, NULL, NULL);
    channel->out = channel->in;
  }
  if (channel->in >= 0) {
    write_some(channel);
  }
  if (channel->in >= 0 && !channel->ended) {
    read_some(channel);
  }
}

bool channel_take(struct channel *channel, uint8_t *byte) {
  if (channel->in_at == channel->in_end) {
    return false;
  }
  *byte = channel->in_bytes[channel->in_at++];
  return true;
}

/* What nobody takes in time is lost, as on a line. */
void channel_give(struct channel *channel, const void *bytes, size_t count) {
  if (channel->out_end + count > CHANNEL_BYTES) {
    return;
  }
  memcpy(channel->out_bytes + channel->out_end, bytes, count);
  channel->out_end += count;
}
