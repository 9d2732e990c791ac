/**
 * Aircraft, what they count, and the serial-numbered parts fitted to them: particulars and their
 * revisions, positions, counters with their openings, meters, groundings, components with their
 * fitments, removals and overhauls.
 */
package trestle.fleet;
