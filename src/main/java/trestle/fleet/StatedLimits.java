package trestle.fleet;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.web.Viewer;

/** What every component of a part number has to keep, as the rooms above state it. */
public interface StatedLimits {

  /**
   * A requirement of a part number.
   *
   * @param rule in words: "at 2,500 h since new"
   * @param binds whom
   * @param by who opened it, and {@code on} which day
   */
  record Stated(
      UUID requirementId,
      String title,
      String kind,
      String rule,
      String binds,
      String by,
      LocalDate on) {}

  /** Those not withdrawn; a constant number of statements. */
  List<Stated> ofPart(Viewer viewer, String partNumber);
}
