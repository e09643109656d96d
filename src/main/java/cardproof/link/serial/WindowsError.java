package cardproof.link.serial;

import cardproof.text.Problem;
import java.util.List;

/** Error numbers of Windows that opening a port may end in (System Error Codes 0-499). */
final class WindowsError {
  private static final int FILE_NOT_FOUND = 2;

  /** A port that another program has open, in practice. */
  private static final int ACCESS_DENIED = 5;

  private static final int SHARING_VIOLATION = 32;

  private WindowsError() {}

  static Problem of(int errorCode, PortProblems problems) {
    return switch (errorCode) {
      case FILE_NOT_FOUND -> problems.missing(List.of());
      case ACCESS_DENIED, SHARING_VIOLATION -> problems.busy("");
      default -> problems.notOpened(errorCode);
    };
  }
}
