/**
 * Requirements and compliance: the one mechanism for inspections, overhauls, life limits and
 * documents; and the stateless check of the arithmetic behind them.
 */
package trestle.programme;
