/**
 * The engineer's day: work orders from what is due and what is wrong, lines signed by whoever may,
 * a second person's inspection, parts, and the release of the aircraft, or not.
 */
package trestle.workshop;
