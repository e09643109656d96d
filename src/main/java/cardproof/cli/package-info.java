/**
 * The commands: wiring everything together, exit codes, and the only writing to standard streams.
 */
package cardproof.cli;
