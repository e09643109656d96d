package cardproof.pty;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.Pointer;

/** The calls of POSIX.1-2017 and glibc that a pseudo-terminal takes; constants are Linux's. */
interface LibC extends Library {
  LibC INSTANCE = Native.load("c", LibC.class);

  int O_RDWR = 2;
  int O_NOCTTY = 0x100;
  int O_NONBLOCK = 0x800;
  int O_CLOEXEC = 0x80000;
  int TCSANOW = 0;
  short POLLIN = 1;
  short POLLOUT = 4;
  int EINTR = 4;
  int EIO = 5;
  int EAGAIN = 11;

  /** At least the size of {@code struct termios}, which is 60 bytes. */
  int TERMIOS_BYTES = 256;

  int posix_openpt(int flags) throws LastErrorException;

  int grantpt(int fd) throws LastErrorException;

  int unlockpt(int fd) throws LastErrorException;

  int ptsname_r(int fd, byte[] name, long size);

  int open(String path, int flags) throws LastErrorException;

  int close(int fd) throws LastErrorException;

  int tcgetattr(int fd, Pointer termios) throws LastErrorException;

  int tcsetattr(int fd, int actions, Pointer termios) throws LastErrorException;

  void cfmakeraw(Pointer termios);

  int ppoll(Pointer fds, long count, Pointer timeout, Pointer mask) throws LastErrorException;

  long read(int fd, byte[] into, long count) throws LastErrorException;

  long write(int fd, Pointer bytes, long count) throws LastErrorException;

  int kill(int pid, int signal) throws LastErrorException;
}
