/**
 * Aircraft, what they count, and the serial-numbered parts fitted to them: particulars and their
 * revisions, positions, counters with their openings, meters, groundings, part numbers and
 * components: where these were fitted, themselves or within larger ones, and what else happened to
 * them.
 */
package trestle.fleet;
