package trestle.programme;

import trestle.reckoning.Scale;
import trestle.web.JsonInput;

/**
 * What one limit needs from usage and history to be reckoned.
 *
 * @param scale the counter or the calendar it is measured along
 * @param from the origin it counts from, null for a fixed point
 * @param where the place that names the origin, null where none is written
 */
record Need(Scale scale, String from, JsonInput where) {}
