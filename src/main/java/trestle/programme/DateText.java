package trestle.programme;

import java.time.DateTimeException;
import java.time.LocalDate;

/** A date as the API writes it: {@code 2026-03-31}, from 1900 to 2200. */
final class DateText {

  private DateText() {}

  static LocalDate parse(String text) {
    if (!text.matches("[0-9]{4}-[0-9]{2}-[0-9]{2}")) {
      throw new IllegalArgumentException("must be a date such as 2026-03-31");
    }
    LocalDate date;
    try {
      date = LocalDate.parse(text);
    } catch (DateTimeException e) {
      throw new IllegalArgumentException("is not a date that exists", e);
    }
    if (date.getYear() < 1900 || date.getYear() > 2200) {
      throw new IllegalArgumentException("must be from 1900 to 2200");
    }
    return date;
  }
}
