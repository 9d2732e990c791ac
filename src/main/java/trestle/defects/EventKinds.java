package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** The list of abnormal events: a shipped one to begin with, each line the operator's to change. */
@ApplicationScoped
public class EventKinds {
  private static final List<EventKind> SHIPPED = shipped();

  @Inject DefectRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** The operator's list as it now stands, by name. */
  @Reading
  public List<EventKind> all(Viewer viewer) {
    Map<String, EventKind> kinds = new LinkedHashMap<>();
    SHIPPED.forEach(kind -> kinds.put(kind.code(), kind));
    for (AbnormalEventKind row : repository.eventKinds()) {
      if (row.withdrawn) {
        kinds.remove(row.code);
      } else {
        kinds.put(row.code, new EventKind(row.code, row.name, row.inspection, false));
      }
    }
    return kinds.values().stream().sorted(Comparator.comparing(EventKind::name)).toList();
  }

  /**
   * @throws Refusal when the operator lists no such event
   */
  @Reading
  public EventKind find(Viewer viewer, String code) {
    return all(viewer).stream()
        .filter(kind -> kind.code().equals(code))
        .findFirst()
        .orElseThrow(() -> new Refusal("kind", "What happened must be one of the choices shown."));
  }

  /** Adds a line, or with the code of a line says anew what it says. */
  @Filing
  public void state(Viewer viewer, String code, String name, String inspection, UUID formKey) {
    if (repository.ofForm(AbnormalEventKind.class, formKey).isPresent()) {
      return;
    }
    if (code != null && all(viewer).stream().noneMatch(kind -> kind.code().equals(code))) {
      throw new NotHere("There is no such line on the list.");
    }
    boolean taken =
        all(viewer).stream()
            .anyMatch(kind -> kind.name().equalsIgnoreCase(name) && !kind.code().equals(code));
    if (taken) {
      throw new Refusal("name", "Name is on the list already.");
    }
    file(viewer, row(code == null ? free(viewer, name) : code, name, inspection), formKey);
  }

  /** Takes a line off the list; events that were reported under it keep its words. */
  @Filing
  public void withdraw(Viewer viewer, String code) {
    EventKind kind =
        all(viewer).stream()
            .filter(one -> one.code().equals(code))
            .findFirst()
            .orElseThrow(() -> new NotHere("There is no such line on the list."));
    AbnormalEventKind row = row(code, kind.name(), kind.inspection());
    row.withdrawn = true;
    file(viewer, row, null);
  }

  private void file(Viewer viewer, AbnormalEventKind row, UUID formKey) {
    Instant now = clock.instant();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
  }

  private static AbnormalEventKind row(String code, String name, String inspection) {
    AbnormalEventKind row = new AbnormalEventKind();
    row.code = code;
    row.name = name;
    row.inspection = inspection;
    return row;
  }

  /** A code made from the name that no line ever had. */
  private String free(Viewer viewer, String name) {
    String plain =
        name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
    String base = plain.isEmpty() ? "event" : plain.substring(0, Math.min(50, plain.length()));
    List<String> taken = new ArrayList<>(SHIPPED.stream().map(EventKind::code).toList());
    repository.eventKinds().forEach(row -> taken.add(row.code));
    String code = base;
    for (int i = 2; taken.contains(code); i++) {
      code = base + "-" + i;
    }
    return code;
  }

  private static List<EventKind> shipped() {
    List<EventKind> all = new ArrayList<>();
    try (InputStream file = EventKinds.class.getResourceAsStream("/defects/abnormal-events.tsv");
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(file, StandardCharsets.UTF_8))) {
      lines
          .lines()
          .map(line -> line.split("\t"))
          .forEach(cells -> all.add(new EventKind(cells[0], cells[1], cells[2], true)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return List.copyOf(all);
  }
}
