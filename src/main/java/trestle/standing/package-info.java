/**
 * An aircraft's due items and standing. Declares {@link trestle.standing.DueSource} and {@link
 * trestle.standing.Grounds}, which the rooms above implement and injection finds, so that everyone
 * asks downwards.
 */
package trestle.standing;
