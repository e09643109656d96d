package cardproof.log;

/**
 * What came of taking another log's runs into one.
 *
 * @param runs how many were taken
 * @param knownRuns how many were here already
 * @param unfinished how many were left there because they are still being written
 * @param reworks how many rework notes were taken
 * @param knownReworks how many of them were here already
 */
public record Merged(int runs, int knownRuns, int unfinished, int reworks, int knownReworks) {}
