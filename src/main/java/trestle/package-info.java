/**
 * Trestle: what each airframe, engine and propeller has flown, what falls due next, and why.
 *
 * <p>One package a room, listed from the ground up in DEVELOPERS.md; a room uses only rooms above
 * it in that list.
 */
package trestle;
