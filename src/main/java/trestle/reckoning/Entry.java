package trestle.reckoning;

/** One entry of a group's list: a limit, or another group. */
public sealed interface Entry permits Limit, Group {}
