package trestle.server;

import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * When backups are made by themselves, and which are kept.
 *
 * @param at the time of day, in the zone
 */
record BackupPlan(LocalTime at, ZoneId zone, Keep keep) {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);
  private static final Pattern FILE = Pattern.compile("trestle-(\\d{8}T\\d{6}Z)\\.zip");
  private static final Pattern DRAFT_OF = Pattern.compile(FILE + "(\\.[0-9a-f-]{36})?\\.part");

  /** A file dated later than this was written under a wrong clock, and proves nothing. */
  private static final Duration CLOCKS_APART = Duration.ofDays(1);

  /** The newest of each of so many days, and of each of so many months. */
  record Keep(int days, int months) {
    private static final Pattern WORDS =
        Pattern.compile("(\\d{1,4}) days?(?:, *(\\d{1,4}) months?)?");

    /**
     * Reads "14 days, 12 months".
     *
     * @throws IllegalArgumentException when it is something else, or keeps nothing
     */
    static Keep parse(String text) {
      Matcher words = WORDS.matcher(text.strip());
      if (!words.matches() || Integer.parseInt(words.group(1)) == 0) {
        throw new IllegalArgumentException(text);
      }
      String months = words.group(2);
      return new Keep(
          Integer.parseInt(words.group(1)), months == null ? 0 : Integer.parseInt(months));
    }

    @Override
    public String toString() {
      return "%d days, %d months".formatted(days, months);
    }
  }

  /**
   * @throws StartRefused naming the setting that can't be read
   */
  static BackupPlan parse(String at, String keep, ZoneId zone) {
    LocalTime time;
    try {
      time = LocalTime.parse(at.strip());
    } catch (DateTimeException e) {
      throw new StartRefused(
          "TRESTLE_BACKUP_AT must be a time of day like 02:30, not \"%s\".".formatted(at));
    }
    try {
      return new BackupPlan(time, zone, Keep.parse(keep));
    } catch (IllegalArgumentException e) {
      throw new StartRefused(
          "TRESTLE_BACKUP_KEEP must say how many to keep, like \"14 days, 12 months\", not \"%s\"."
              .formatted(keep));
    }
  }

  static String fileName(Instant moment) {
    return "trestle-" + MOMENT.format(moment) + ".zip";
  }

  /**
   * Whether the time has come since the newest of these was made. On a day when summer time leaves
   * the hour out it comes an hour later; where the hour comes twice, the first time.
   */
  boolean isDue(List<Path> files, Instant now) {
    Instant latest = latestTime(now);
    return files.stream()
        .flatMap(file -> momentOf(file).stream())
        .filter(moment -> moment.isBefore(believedUntil(now)))
        .noneMatch(moment -> !moment.isBefore(latest));
  }

  /** From then on a file's date is of a wrong clock. */
  static Instant believedUntil(Instant now) {
    return now.plus(CLOCKS_APART);
  }

  private Instant latestTime(Instant now) {
    ZonedDateTime local = now.atZone(zone);
    Instant today = local.toLocalDate().atTime(at).atZone(zone).toInstant();
    return today.isAfter(now)
        ? local.toLocalDate().minusDays(1).atTime(at).atZone(zone).toInstant()
        : today;
  }

  /**
   * Those of our own making that need not be kept any longer. What was dated by a wrong clock is
   * kept, and takes no other's place.
   */
  List<Path> superfluous(List<Path> files, Instant now) {
    List<Path> newestFirst = new ArrayList<>(files);
    newestFirst.removeIf(
        file -> momentOf(file).filter(it -> it.isBefore(believedUntil(now))).isEmpty());
    newestFirst.sort(Comparator.comparing((Path file) -> momentOf(file).get()).reversed());
    Set<Path> kept = new HashSet<>();
    kept.addAll(newestOfEach(newestFirst, keep.days(), it -> it.toLocalDate()));
    kept.addAll(newestOfEach(newestFirst, keep.months(), it -> it.toLocalDate().withDayOfMonth(1)));
    return newestFirst.stream().filter(file -> !kept.contains(file)).toList();
  }

  private List<Path> newestOfEach(
      List<Path> newestFirst, int most, Function<ZonedDateTime, Object> period) {
    List<Path> kept = new ArrayList<>();
    Set<Object> seen = new HashSet<>();
    for (Path file : newestFirst) {
      if (seen.size() < most && seen.add(period.apply(momentOf(file).get().atZone(zone)))) {
        kept.add(file);
      }
    }
    return kept;
  }

  /** Whether a file is the draft of one of our own making. */
  static boolean isOurDraft(Path file) {
    return DRAFT_OF.matcher(file.getFileName().toString()).matches();
  }

  private static Optional<Instant> momentOf(Path file) {
    Matcher name = FILE.matcher(file.getFileName().toString());
    try {
      return name.matches()
          ? Optional.of(Instant.from(MOMENT.parse(name.group(1))))
          : Optional.empty();
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
