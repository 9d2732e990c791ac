package trestle.overview;

import java.util.List;
import trestle.web.Viewer;

/** What the rooms above want said before anything else on the fleet page; injection finds them. */
public interface Alarms {

  /**
   * @param sentence what is wrong
   * @param href where to read more, or null where this viewer may not
   */
  record Alarm(String sentence, String href) {}

  /** In one statement at most; nearly always empty. */
  List<Alarm> alarms(Viewer viewer);
}
