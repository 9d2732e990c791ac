package trestle.house;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import javax.imageio.ImageIO;
import trestle.defects.AbnormalEvents;
import trestle.defects.CertifiedWork;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.EventInspections;
import trestle.defects.EventKind;
import trestle.defects.EventKinds;
import trestle.defects.Judgement;
import trestle.defects.Occurrences;
import trestle.defects.PhotoDraft;
import trestle.defects.Photos;
import trestle.defects.Rectifications;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.web.Viewer;

/** What is wrong with a {@link Yard}'s aircraft: one row at least of everything of defects. */
@ApplicationScoped
class Wreck {
  @Inject Defects defects;
  @Inject Rectifications rectifications;
  @Inject EventInspections inspections;
  @Inject Photos photos;
  @Inject AbnormalEvents events;
  @Inject EventKinds kinds;
  @Inject Occurrences occurrences;
  @Inject IdentityProof identity;

  record Found(
      UUID earlier,
      UUID defect,
      UUID rectification,
      UUID occurrence,
      UUID mistaken,
      UUID event,
      UUID inspection,
      String eventKind,
      String photo) {}

  Found of(Viewer viewer, String mark, UUID aircraft, Instant now) {
    UUID earlier = defect(viewer, mark, aircraft, now.minus(Duration.ofDays(5)), List.of());
    UUID done =
        rectifications.rectify(
            viewer,
            identity.prove(viewer, Company.PASSWORD),
            earlier,
            new CertifiedWork(mark + " belt tightened", mark + " manual", Yard.LICENCE, now),
            null);
    PhotoDraft photo = photos.prepare(viewer, picture(mark));
    UUID defect = defect(viewer, mark, aircraft, now.minus(Duration.ofDays(1)), List.of(photo));
    UUID occurrence =
        occurrences.flag(
            viewer,
            defect,
            new Occurrences.NewOccurrence(true, mark, mark + " authority", now, mark),
            null);
    UUID mistaken =
        occurrences.flag(
            viewer,
            earlier,
            new Occurrences.NewOccurrence(false, "", "", null, mark + " none"),
            null);
    kinds.state(viewer, null, mark + " swell", mark + " hull inspection", null);
    String kind =
        kinds.all(viewer).stream()
            .filter(one -> one.name().startsWith(mark))
            .map(EventKind::code)
            .findFirst()
            .orElseThrow();
    UUID event =
        events.report(
            viewer,
            aircraft,
            new AbnormalEvents.NewEvent(kind, mark + " sea", now),
            List.of(),
            null,
            null);
    UUID inspected =
        events.report(
            viewer,
            aircraft,
            new AbnormalEvents.NewEvent("hail", mark + " hail", now),
            List.of(),
            null,
            null);
    UUID inspection =
        inspections.certify(
            viewer,
            identity.prove(viewer, Company.PASSWORD),
            inspected,
            new CertifiedWork(mark + " no dent", mark + " manual", Yard.LICENCE, now),
            null);
    return new Found(
        earlier, defect, done, occurrence, mistaken, event, inspection, kind, photo.sha256());
  }

  private UUID defect(
      Viewer viewer, String mark, UUID aircraft, Instant at, List<PhotoDraft> pictures) {
    DefectDraft draft =
        new DefectDraft(
            mark + " alternator hums",
            "24",
            mark + " bay",
            null,
            null,
            Judgement.CAN_FLY,
            null,
            true,
            mark + " panel",
            at);
    return defects.report(viewer, aircraft, draft, pictures, null, null).entryId();
  }

  /** Of another width for each mark: the same picture would have one address everywhere. */
  static byte[] picture(String mark) {
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      int width = 40 + Math.floorMod(mark.hashCode(), 400);
      ImageIO.write(new BufferedImage(width, 48, BufferedImage.TYPE_INT_RGB), "jpeg", bytes);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
