package trestle.overview;

import java.time.LocalDate;

/**
 * One item on the horizon.
 *
 * @param on the day it stands at; today for what is past due
 * @param past whether it is past due
 * @param byDate whether it falls on a date (a square), or is projected from use (a disc)
 * @param weight "held", "limited" or "": how it is coloured, besides what its shape says
 * @param about when, in words
 */
record Peg(String label, LocalDate on, boolean past, boolean byDate, String weight, String about) {}
