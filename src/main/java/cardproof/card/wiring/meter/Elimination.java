package cardproof.card.wiring.meter;

/**
 * Gauss-Jordan elimination on the diagonal, last column first. The matrices of nodal analysis are
 * symmetric and positive definite, so no pivot is zero; their rows come nearest node first, so that
 * ends of branches go before what they hang on and hardly anything fills in.
 */
final class Elimination {
  private Elimination() {}

  /**
   * @param rows each with its right-hand side last, which becomes the solution
   */
  static void solve(double[][] rows) {
    int size = rows.length;
    for (int pivot = size - 1; pivot >= 0; pivot--) {
      for (int row = 0; row < size; row++) {
        double factor = rows[row][pivot] / rows[pivot][pivot];
        if (row != pivot && factor != 0) {
          for (int c = 0; c <= size; c++) {
            rows[row][c] -= factor * rows[pivot][c];
          }
        }
      }
    }
    for (int row = 0; row < size; row++) {
      rows[row][size] /= rows[row][row];
    }
  }
}
