/** A bench log as tables: a row a run, a vector, a moved line, a rework note. */
package cardproof.report.table;
