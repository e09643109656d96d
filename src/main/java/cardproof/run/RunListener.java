package cardproof.run;

/** Is told how a run goes, on the runner's own thread. */
public interface RunListener {
  /** A vector is judged, and its record is safe in the log. */
  void judged(Judged judged);

  /** A vector judged before turned out otherwise; its superseding record is safe in the log. */
  void superseded(Judged judged);
}
