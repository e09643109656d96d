package cardproof.link.serial;

/**
 * Error numbers of POSIX systems that opening a device may end in (Linux errno(3), BSD intro(2)).
 */
final class Errno {
  static final int EPERM = 1;
  static final int ENOENT = 2;
  static final int EIO = 5;
  static final int ENXIO = 6;
  static final int EAGAIN_LINUX = 11;
  static final int EACCES = 13;
  static final int EBUSY = 16;
  static final int ENODEV = 19;
  static final int EINVAL = 22;
  static final int ENOTTY = 25;
  static final int EAGAIN_BSD = 35;

  private Errno() {}
}
