package trestle.web;

import java.math.BigDecimal;
import java.text.Normalizer;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.function.Function;
import trestle.reckoning.Hours;

/** One field of a {@link Form}, to be read as what it should be; null when it is blank or wrong. */
public final class Field {
  private final Form form;
  private final String name;
  private final String label;
  private final boolean required;

  Field(Form form, String name, String label, boolean required) {
    this.form = form;
    this.name = name;
    this.label = label;
    this.required = required;
  }

  /** One line of text; blanks at the ends go, runs of them become one. */
  public String text(int most) {
    return read(typed -> checkedText(typed.replaceAll("\\s+", " "), most));
  }

  /** Several lines of text. */
  public String lines(int most) {
    return read(typed -> checkedText(typed.replace("\r\n", "\n").replace('\r', '\n'), most));
  }

  /** Hours, such as 12.5, 12:30 or 1,234.5. */
  public Hours hours() {
    return read(Hours::parseTyped);
  }

  /** A whole number that is not negative, such as 2 or 9,117. */
  public Long count() {
    return read(typed -> Typed.count(typed, 10_000_000));
  }

  public Integer count(int most) {
    return read(typed -> (int) Typed.count(typed, most));
  }

  /** A quantity that is not negative, with at most so many digits after the point. */
  public BigDecimal decimal(int digits) {
    return read(typed -> Typed.decimal(typed, digits));
  }

  /** A date, such as 25 Nov 2026, 2026-11-25 or 25.11.2026. */
  public LocalDate date() {
    return read(Typed::date);
  }

  /** A date that is not after today. */
  public LocalDate dateUpTo(LocalDate today) {
    return read(typed -> Typed.notAfter(Typed.date(typed), today));
  }

  /** A time of day, such as 09:12, 9:12 or 0912. */
  public LocalTime time() {
    return read(Typed::time);
  }

  public UUID uuid() {
    return read(Field::chosenUuid);
  }

  /** One of the values offered. */
  public String choice(Collection<String> offered) {
    return read(typed -> oneOf(typed, offered));
  }

  public String choice(String... offered) {
    return choice(List.of(offered));
  }

  /** One of an enum, whose values on the page are its names in small letters with hyphens. */
  public <E extends Enum<E>> E choice(Class<E> type) {
    List<E> all = Arrays.asList(type.getEnumConstants());
    String chosen = choice(all.stream().map(Field::word).toList());
    return all.stream().filter(one -> word(one).equals(chosen)).findFirst().orElse(null);
  }

  /** All ticked boxes of this name; empty when none is. */
  public List<String> choices(Collection<String> offered) {
    List<String> ticked = form.values(name);
    if (!offered.containsAll(ticked)) {
      fail("must be among the choices shown");
      return List.of();
    }
    if (required && ticked.isEmpty()) {
      fail("needs at least one choice");
    }
    return ticked.stream().distinct().toList();
  }

  /** Any other kind of value: the reader's IllegalArgumentException says what is wrong. */
  public <T> T read(Function<String, T> reader) {
    String typed = Typed.clean(form.value(name));
    if (typed.isEmpty()) {
      if (required) {
        fail("must not be blank");
      }
      return null;
    }
    try {
      return reader.apply(typed);
    } catch (IllegalArgumentException e) {
      fail(e.getMessage());
      return null;
    }
  }

  /** Notes that this field "must …"; the label makes it a sentence. */
  public void fail(String predicate) {
    form.fail(name, label + " " + predicate);
  }

  static UUID uuidOrNull(String text) {
    try {
      return text.length() == 36 ? UUID.fromString(text) : null;
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  private static UUID chosenUuid(String typed) {
    UUID id = uuidOrNull(typed);
    if (id == null) {
      throw new IllegalArgumentException("must be one of the choices shown");
    }
    return id;
  }

  private static String oneOf(String typed, Collection<String> offered) {
    if (!offered.contains(typed)) {
      throw new IllegalArgumentException("must be one of the choices shown");
    }
    return typed;
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static String checkedText(String typed, int most) {
    String text = Normalizer.normalize(typed, Normalizer.Form.NFC);
    int length = text.codePointCount(0, text.length());
    if (length > most) {
      throw new IllegalArgumentException(
          "must be at most " + Shown.count(most) + " characters; it has " + Shown.count(length));
    }
    return text;
  }
}
