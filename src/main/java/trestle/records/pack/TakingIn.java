package trestle.records.pack;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.Groundings;
import trestle.fleet.Revisions;
import trestle.flights.JourneyLog;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Takes in a pack that another operator made: first what it is and what would come of it, then all
 * of it or nothing, in one transaction. Rows are filed anew in this operator's ledger under their
 * own ids, marked as copied; the lines as they came, with their proofs, are kept beside them.
 */
@ApplicationScoped
public class TakingIn {
  /** The field of the form that carries the file. */
  static final String FIELD = "pack";

  @Inject TakenRepository repository;
  @Inject PackCheck checks;
  @Inject Conflicts conflicts;
  @Inject Refiled refiled;
  @Inject PackTotals totals;
  @Inject Summaries summaries;
  @Inject Ledger ledger;
  @Inject Fleet fleet;
  @Inject Groundings groundings;
  @Inject Components components;
  @Inject Revisions revisions;
  @Inject JourneyLog journeyLog;
  @Inject InstantSource clock;
  @Inject TakingIn walled;

  /**
   * What a pack is, and what would come of it here.
   *
   * @param filed how many lines of each kind would be filed anew
   * @param kept how many would be kept as text alone
   * @param here how many are here already, from an earlier pack
   * @param unfinished what the other workshop left unfinished: it is grounded for that
   * @param against why it can't be taken in; empty when it can
   * @param mind what to know before it is
   */
  record Preview(
      Checked pack,
      Map<String, Integer> filed,
      Map<String, Integer> kept,
      int here,
      List<String> unfinished,
      List<String> against,
      List<String> mind) {

    public int filedInAll() {
      return filed.values().stream().mapToInt(Integer::intValue).sum();
    }

    public int keptInAll() {
      return kept.values().stream().mapToInt(Integer::intValue).sum();
    }
  }

  /**
   * Looks into a file and keeps it for the decision.
   *
   * @return the id of the upload
   * @throws Refusal when it is no sound pack
   */
  UUID uploaded(Viewer viewer, Path file) {
    try (PackFile pack = PackFile.open(file)) {
      checks.check(pack);
    }
    return walled.keep(viewer, file);
  }

  @Filing
  UUID keep(Viewer viewer, Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      TakenRepository.Upload upload =
          new TakenRepository.Upload(
              viewer.operatorId(),
              UuidCreator.getTimeOrderedEpoch(),
              clock.instant(),
              viewer.personId(),
              Files.size(file),
              PackFile.sha256(file));
      repository.keepUpload(upload, in);
      return upload.id();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Filing
  void setAside(Viewer viewer, UUID upload) {
    repository.upload(upload);
    repository.removeUpload(upload);
  }

  @Reading
  Preview preview(Viewer viewer, UUID upload) {
    repository.upload(upload);
    return onDisk(upload, (file, pack) -> previewed(viewer, pack, checks.check(pack)));
  }

  private Preview previewed(Viewer viewer, PackFile file, Checked pack) {
    Set<UUID> here = conflicts.here(viewer, pack);
    Fates fates = new Fates(pack);
    Map<String, Integer> filed = new TreeMap<>();
    Map<String, Integer> kept = new TreeMap<>();
    int[] known = {0};
    Outstanding outstanding = new Outstanding();
    PackLines.read(
        file,
        line -> {
          outstanding.line(line);
          if (!fates.isFiled(line.kind(), line.json())) {
            kept.merge(line.kind(), 1, Integer::sum);
          } else if (here.contains(line.recordId())) {
            known[0]++;
          } else {
            filed.merge(line.kind(), 1, Integer::sum);
          }
        });
    return new Preview(
        pack,
        filed,
        kept,
        known[0],
        pack.subject().isAircraft() ? outstanding.sentences() : List.of(),
        conflicts.against(viewer, pack),
        conflicts.mind(viewer, pack, kept));
  }

  /**
   * Files all of it.
   *
   * @return the id of the pack that was taken in
   * @throws Refusal when it can't be; then nothing is filed
   */
  UUID takeIn(Viewer viewer, UUID upload) {
    try {
      return walled.file(viewer, upload);
    } catch (Refusal refusal) {
      throw refusal;
    } catch (RuntimeException e) {
      Optional<String> contradiction = TakenRepository.contradictionIn(e);
      if (contradiction.isPresent()) {
        throw PackFile.refused(
            "Its records contradict each other or what stands here, and nothing was filed: "
                + firstLine(contradiction.get()));
      }
      throw e;
    }
  }

  private static String firstLine(String message) {
    return message.lines().findFirst().orElse("").replace("ERROR: ", "");
  }

  @Filing
  UUID file(Viewer viewer, UUID upload) {
    TakenRepository.Upload sent = repository.upload(upload);
    return onDisk(
        upload,
        (file, pack) -> {
          if (!repository.removeUpload(upload)) {
            throw PackFile.refused("Somebody has decided on this file meanwhile.");
          }
          return filed(viewer, sent, pack, checks.check(pack));
        });
  }

  private UUID filed(Viewer viewer, TakenRepository.Upload sent, PackFile file, Checked pack) {
    revisions.bump(viewer, revisions.all(viewer).keySet());
    List<String> against = conflicts.against(viewer, pack);
    if (!against.isEmpty()) {
      throw PackFile.refused(against.get(0));
    }
    Preview preview = previewed(viewer, file, pack);
    fleet.takeUp(viewer, pack.aircraft());
    refiled.files(viewer, file, pack);
    Instant now = clock.instant();
    Act act = new Act(viewer.operatorId(), viewer.personId(), now);
    TakenPack taken = taken(pack, sent, preview);
    taken.happened(now, viewer.dateOf(now));
    ledger.file(act, taken);
    repository.flushAndForget();
    Set<UUID> here = conflicts.here(viewer, pack);
    Set<UUID> knownParts =
        new HashSet<>(components.sheets(viewer, pack.history(), View.EVERYTHING).keySet());
    refiled.file(new Refiled.Job(viewer, act, taken.id(), file, pack, here));
    journeyLog.rebuild(viewer, pack.aircraft());
    refiled.retire(viewer, act, pack, knownParts);
    if (!preview.unfinished().isEmpty()) {
      groundings.ground(viewer, pack.subject().id(), grounded(pack, preview.unfinished()), null);
    }
    repository.flushAndForget();
    intact(viewer, pack);
    return taken.id();
  }

  private static String grounded(Checked pack, List<String> unfinished) {
    return "Left unfinished by "
        + pack.fromName()
        + ", to be looked at before it flies: "
        + String.join(" ", unfinished);
  }

  private static TakenPack taken(Checked pack, TakenRepository.Upload sent, Preview preview) {
    TakenPack taken = new TakenPack();
    taken.aircraftId = pack.subject().isAircraft() ? pack.subject().id() : null;
    taken.componentId = pack.subject().isAircraft() ? null : pack.subject().id();
    taken.subject = pack.words();
    taken.fromOperator = pack.fromOperator();
    taken.fromName = pack.fromName();
    taken.formatVersion = pack.version();
    taken.fileSha256 = sent.sha256();
    taken.manifestSha256 = pack.manifestSha256();
    taken.head = pack.head().text();
    taken.lines = pack.lines();
    taken.filed = preview.filedInAll();
    return taken;
  }

  /**
   * The totals here are the totals there, and every status list can be told; or nothing is filed.
   */
  private void intact(Viewer viewer, Checked pack) {
    List<PackTotals.Total> here = totals.of(viewer, pack.subject(), pack.parts(), View.EVERYTHING);
    if (!here.equals(pack.totals())) {
      List<PackTotals.Total> differ = new ArrayList<>(pack.totals());
      differ.removeAll(here);
      throw PackFile.refused(
          "Its totals do not follow from its records ("
              + (differ.isEmpty() ? "there are more here" : String.join(" ", differ.get(0).cells()))
              + "): nothing was filed.");
    }
    LocalDate today = viewer.dateOf(clock.instant());
    long size = ledger.head(viewer.operatorId()).size();
    try {
      summaries.of(viewer, pack.subject(), new View(today, size));
    } catch (IllegalArgumentException | IllegalStateException e) {
      throw PackFile.refused("Its records can’t be read as what they are: nothing was filed.");
    }
  }

  private interface Use<T> {
    T of(Path file, PackFile pack);
  }

  private <T> T onDisk(UUID upload, Use<T> use) {
    try {
      Path file = Files.createTempFile("taken-pack-", ".zip");
      try {
        try (OutputStream out = Files.newOutputStream(file)) {
          repository.writeUpload(upload, out);
        }
        try (PackFile pack = PackFile.open(file)) {
          return use.of(file, pack);
        }
      } finally {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
