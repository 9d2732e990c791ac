package trestle.records.pack;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.SignedHead;
import trestle.programme.RequirementSheet;

/**
 * A pack whose files, lines and proofs agree with each other.
 *
 * @param fromName what the other operator calls itself
 * @param fitted whether a component was fitted to something when the pack was made
 * @param names registration, type and serial, or part number, serial and description
 * @param parts the components that are handed over
 * @param history components that are known from the record only
 * @param flownOn other aircraft that the parts were on
 * @param people names, by the ids that the lines have
 * @param files the attachments: kind, name and media type, by SHA-256
 * @param recordIds the records of each kind
 * @param inspected abnormal events whose inspection is in the record
 */
record Checked(
    PackSubject subject,
    String words,
    UUID fromOperator,
    String fromName,
    int version,
    String manifestSha256,
    SignedHead head,
    boolean fitted,
    Map<UUID, List<String>> names,
    Set<UUID> parts,
    Set<UUID> history,
    Set<UUID> flownOn,
    Map<UUID, String> people,
    Map<UUID, RequirementSheet> requirements,
    List<PackTotals.Total> totals,
    Map<String, List<String>> files,
    Map<String, Set<UUID>> recordIds,
    Set<String> inspected) {

  public int lines() {
    return recordIds.values().stream().mapToInt(Set::size).sum();
  }

  /** Every aircraft that its rows may name. */
  Set<UUID> aircraft() {
    Set<UUID> all = new java.util.HashSet<>(flownOn);
    if (subject.isAircraft()) {
      all.add(subject.id());
    }
    return all;
  }

  /** What stands beside a transcribed record: where it was copied from. */
  String source() {
    return "the record of " + fromName + " for " + words;
  }
}
