/**
 * The bench log: an SQLite database that holds every run of every unit, vector by vector.
 *
 * <p>Writing goes through {@link cardproof.log.BenchLog#begin} and {@link cardproof.log.RunWriter};
 * everything else reads. What was committed survives the death of the process (write-ahead log,
 * synchronous NORMAL); a power cut may take the last commits, never the rest. A simulated unit and
 * a real unit of the same name are two units. Whatever a user can put right is a {@link
 * cardproof.log.LogException}.
 */
package cardproof.log;
