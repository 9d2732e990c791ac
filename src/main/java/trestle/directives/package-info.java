/**
 * Airworthiness directives and service bulletins: whom each paragraph is about (types, part numbers
 * and serial numbers as people write them), what was judged for each aircraft and part, and the
 * requirement that a paragraph opens where it applies. What nobody judged yet is worked out at each
 * reading from revisions, fittings and serials, so that it comes up again by itself.
 */
package trestle.directives;
