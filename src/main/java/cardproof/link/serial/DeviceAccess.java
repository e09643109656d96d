package cardproof.link.serial;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/**
 * Who may open a device file.
 *
 * @param path the file itself, links resolved
 * @param permissions as {@code ls} writes them; empty where the system has none
 */
record DeviceAccess(String path, String owner, String group, String permissions) {

  static DeviceAccess of(Path path) {
    try {
      PosixFileAttributes a = Files.readAttributes(path, PosixFileAttributes.class);
      return new DeviceAccess(
          path.toString(),
          a.owner().getName(),
          a.group().getName(),
          PosixFilePermissions.toString(a.permissions()));
    } catch (IOException | UnsupportedOperationException e) {
      return new DeviceAccess(path.toString(), "", "", "");
    }
  }

  String summary() {
    return permissions.isEmpty()
        ? path + " does not say who may"
        : path + " belongs to " + owner + ", group " + group + ", with " + permissions;
  }

  /** What to do so that {@code user} may open it. */
  String remedy(String user) {
    if (permissions.isEmpty()) {
      return "See that your account may use serial ports";
    }
    if (!group.equals("root") && groupMay()) {
      return "Run `sudo usermod -aG "
          + group
          + " "
          + user
          + "`, then log out and in again; `id` must then list "
          + group;
    }
    return "No group but root may open it. Add a udev rule that gives such boards to a group you are"
        + " in (SUBSYSTEM==\"tty\", GROUP=\"dialout\", MODE=\"0660\"), then plug the board in"
        + " again";
  }

  private boolean groupMay() {
    Set<PosixFilePermission> all = PosixFilePermissions.fromString(permissions);
    return all.contains(PosixFilePermission.GROUP_READ)
        && all.contains(PosixFilePermission.GROUP_WRITE);
  }
}
