package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.UUID;
import trestle.fleet.Hangar;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Role;
import trestle.web.Viewer;

/** An operator that was handed a component with its record, and two more that wait. */
@ApplicationScoped
public class Handed {
  @Inject RecordPacks packs;
  @Inject TakingIn takingIn;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject InstantSource clock;

  /** What was taken in, and what waits for a decision. */
  public record Found(UUID taken, UUID upload, UUID other) {}

  public Found of(Viewer viewer, String mark) {
    Company seller =
        Company.founded(
            mark + "-seller-" + UUID.randomUUID().toString().substring(0, 8), operators, members);
    Viewer them = seller.viewer(Role.OWNER);
    UUID taken = takingIn.takeIn(viewer, sent(viewer, them, mark + "-S1"));
    return new Found(taken, sent(viewer, them, mark + "-S2"), sent(viewer, them, mark + "-S3"));
  }

  private UUID sent(Viewer viewer, Viewer them, String serial) {
    UUID engine =
        hangar.engine(them, serial, clock.instant(), Hangar.hours(700), Hangar.hours(200));
    Path file = packs.made(them, PackSubject.component(engine));
    try {
      return takingIn.uploaded(viewer, file);
    } finally {
      try {
        Files.delete(file);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
