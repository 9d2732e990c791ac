/**
 * How a due point is computed: quantities, rules, history, state and projection.
 *
 * <p>Pure: {@code java.*} only, no clock, no database. {@link trestle.reckoning.Reckoner} is the
 * one way in. Explained with worked examples in docs/reckoning.md; choices in
 * docs/decisions/0002-reckoning-choices.md.
 */
package trestle.reckoning;
