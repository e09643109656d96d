/** Runs a plan on a fixture: apply, observe, judge, record; and tells listeners as it goes. */
package cardproof.run;
