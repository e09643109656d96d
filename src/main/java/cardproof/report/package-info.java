/**
 * What is shown of a run outside of this program. Knows cards and records, and neither link nor
 * simulation.
 *
 * <p>Waves are written as a Value Change Dump, IEEE 1364-2005 clause 18, four-state form.
 */
package cardproof.report;
