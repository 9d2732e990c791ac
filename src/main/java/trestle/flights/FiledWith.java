package trestle.flights;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.web.Viewer;

/** Something that is filed with a flight; rooms above implement it. */
public interface FiledWith {

  /**
   * One thing, as the flight's page says it.
   *
   * @param what like "Defect No. 231", which links to the record
   * @param about continues the line
   */
  record Line(String what, String about, String link) {}

  /** What came with entries of the journey log, by entry; one without any may be left out. */
  Map<UUID, List<Line>> of(Viewer viewer, Collection<UUID> flightEntryIds);
}
