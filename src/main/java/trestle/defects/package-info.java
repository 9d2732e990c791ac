/**
 * Defects and abnormal events: found, triaged, put off, put right; the ones that come back; and
 * those that are safety occurrences too. Its state is derived from what was filed, never a column.
 */
package trestle.defects;
