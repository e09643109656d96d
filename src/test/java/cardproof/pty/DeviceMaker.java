package cardproof.pty;

/**
 * Makes a device in the process that is to run it; needs a public constructor without parameters.
 */
@FunctionalInterface
public interface DeviceMaker {
  Device make(String... arguments);
}
