package cardproof.files.draft;

import java.util.List;

/**
 * One step of a first plan.
 *
 * @param about lines of comment before it
 * @param text as it stands in the file, with line ends
 */
record DraftStep(List<String> about, String text) {}
