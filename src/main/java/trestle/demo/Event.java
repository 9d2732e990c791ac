package trestle.demo;

import java.time.Instant;
import java.util.concurrent.Callable;

/** Something filed in the story, and when it was recorded. */
record Event(Instant recordedAt, Callable<?> filing) {}
