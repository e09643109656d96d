package cardproof.cli;

import java.nio.file.Path;
import java.util.List;

/**
 * A wave to be written while a plan runs.
 *
 * @param overwrite whether an earlier one of that name may go
 * @param nets numbers of nets in the card's wiring to be shown with the lines
 */
record WaveRequest(Path file, boolean overwrite, List<Integer> nets) {
  WaveRequest {
    nets = List.copyOf(nets);
  }
}
