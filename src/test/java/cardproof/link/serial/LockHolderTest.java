package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class LockHolderTest {
  /** The form of proc(5), /proc/locks; its own example lines, and one with "-" for no process. */
  private static final List<String> LOCKS =
      List.of(
          "1: POSIX  ADVISORY  READ  5433 08:01:7864448 128 128",
          "2: FLOCK  ADVISORY  WRITE 2001 08:01:7864554 0 EOF",
          "3: FLOCK  ADVISORY  WRITE 1568 00:2f:32388 0 EOF",
          "3: -> FLOCK  ADVISORY  WRITE 1600 00:2f:32388 0 EOF");

  @Test
  void findsTheProcessByDeviceAndInode() {
    assertThat(LockHolder.find(LOCKS, 0x0801, 7864554)).contains(2001L);
    assertThat(LockHolder.find(LOCKS, 0x2f, 32388)).contains(1568L);
  }

  @Test
  void otherFilesAndOtherKindsOfLockDoNotCount() {
    assertThat(LockHolder.find(LOCKS, 0x0801, 7864448)).as("a record lock").isEmpty();
    assertThat(LockHolder.find(LOCKS, 0x0802, 7864554)).as("another device").isEmpty();
    assertThat(LockHolder.find(LOCKS, 0x0801, 1)).isEmpty();
    assertThat(LockHolder.find(List.of(), 0x0801, 1)).isEmpty();
  }
}
