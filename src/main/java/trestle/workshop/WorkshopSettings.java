package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** What an operator sets for its workshop: what labour costs, and when the owner is asked. */
@ApplicationScoped
public class WorkshopSettings {
  @Inject CostRepository costs;
  @Inject WorkRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * What an hour of some labour costs.
   *
   * @param name the kind of labour, or the person's name
   * @param personId whose; null of a kind of labour
   * @param hourly null: it ends on that day
   * @param from the first day on which it counts
   */
  public record Rate(
      UUID id, String name, UUID personId, BigDecimal hourly, String currency, LocalDate from) {

    static Rate of(LabourRate row) {
      return new Rate(
          row.id(), row.name, row.personId, row.hourlyRate, row.currency, row.happenedOn());
    }

    /** "Una Reed: 85.00 EUR an hour". */
    public String words() {
      return name
          + ": "
          + (hourly == null ? "ended" : hourly.toPlainString() + " " + currency + " an hour");
    }

    private String key() {
      return name.strip().toLowerCase(Locale.ROOT);
    }
  }

  /** States what an hour costs from a day on, or with no rate that it ends. */
  @Filing
  public UUID state(
      Viewer viewer,
      String name,
      UUID personId,
      BigDecimal hourly,
      String currency,
      LocalDate from,
      UUID formKey) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER)) {
      throw new Refusal("", "Owners and controllers state what labour costs.");
    }
    repository.lock("labour rates");
    LabourRate before = repository.ofForm(LabourRate.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    check(name, hourly, currency);
    LabourRate row = new LabourRate();
    row.name = name.strip();
    row.personId = personId;
    row.hourlyRate = hourly == null ? null : hourly.setScale(2);
    row.currency = currency;
    return file(viewer, row, from, formKey);
  }

  private static void check(String name, BigDecimal hourly, String currency) {
    if (name == null || name.isBlank() || name.length() > 80) {
      throw new Refusal("name", "Labour must be named, in at most 80 characters.");
    }
    if (hourly != null && hourly.compareTo(BigDecimal.valueOf(100_000)) > 0) {
      throw new Refusal("rate", "Rate of an hour must be at most 100,000.");
    }
    if (currency == null || !currency.matches("[A-Z]{3}")) {
      throw new Refusal("currency", "Currency must be three capitals, such as EUR.");
    }
  }

  /** States whether the owner approves every order before its work starts. */
  @Filing
  public UUID approve(Viewer viewer, boolean always, UUID formKey) {
    if (!viewer.is(Role.OWNER)) {
      throw new Refusal("", "An owner states when the owner is asked.");
    }
    repository.lock("approval rule");
    ApprovalRule before = repository.ofForm(ApprovalRule.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    ApprovalRule row = new ApprovalRule();
    row.always = always;
    return file(viewer, row, viewer.dateOf(clock.instant()), formKey);
  }

  private UUID file(Viewer viewer, Filed row, LocalDate from, UUID formKey) {
    Instant now = clock.instant();
    row.happened(
        from.equals(viewer.dateOf(now)) ? now : from.atStartOfDay(viewer.zone()).toInstant(), from);
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
    return row.id();
  }

  /** Every statement of a rate, by name, then as they follow each other. */
  @Reading
  public List<Rate> rates(Viewer viewer) {
    return costs.rates().stream().map(Rate::of).toList();
  }

  /** What counts on a day: one of a name, none of a name that has ended. */
  @Reading
  public List<Rate> inForce(Viewer viewer, LocalDate day) {
    Map<String, Rate> last = new LinkedHashMap<>();
    for (Rate each : rates(viewer)) {
      if (!each.from().isAfter(day)) {
        last.put(each.key(), each);
      }
    }
    List<Rate> all = new ArrayList<>(last.values());
    all.removeIf(each -> each.hourly() == null);
    return all;
  }

  @Reading
  public Optional<Rate> inForce(Viewer viewer, UUID rateId, LocalDate day) {
    return inForce(viewer, day).stream().filter(each -> each.id().equals(rateId)).findFirst();
  }

  /** Whether the owner approves every order. */
  @Reading
  public boolean approvesAlways(Viewer viewer) {
    return costs.approvalRule().map(rule -> rule.always).orElse(false);
  }
}
