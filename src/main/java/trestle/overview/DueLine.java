package trestle.overview;

/** One limit of a due item in words: where it is due, what is left, whether it bites first. */
record DueLine(String due, String left, boolean controlling, boolean extended) {}
