package cardproof.link.serial;

/** The two calls of a serial driver that this package builds on; both may block. */
interface ByteLine {
  /** At least one byte, 0 after a short while without any, -1 when the device is gone. */
  int read(byte[] into);

  /** How many of the {@code count} bytes were taken; fewer means that the device is gone. */
  int write(byte[] bytes, int count);
}
