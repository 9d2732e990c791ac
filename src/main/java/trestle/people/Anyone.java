package trestle.people;

import java.time.ZoneOffset;
import java.util.Set;
import trestle.web.Viewer;

/** The viewer of acts before anyone is known: signing in, first steps. Sees no operator's rows. */
final class Anyone {
  static final Viewer VIEWER =
      new Viewer(null, "", false, null, null, ZoneOffset.UTC, true, Set.of());

  private Anyone() {}
}
