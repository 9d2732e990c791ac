package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.ws.rs.core.MultivaluedHashMap;
import java.time.LocalDate;
import java.util.function.Function;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What people type, and what becomes of it: a value, or the sentence beside the field. */
class TypedTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "25 Nov 2026 | 2026-11-25",
        "25 November 2026 | 2026-11-25",
        "25 NOV 2026 | 2026-11-25",
        "25Nov2026 | 2026-11-25",
        "5 Sept. 2026 | 2026-09-05",
        "1st May 2026 | 2026-05-01",
        "Nov 25, 2026 | 2026-11-25",
        "November 25 2026 | 2026-11-25",
        "2026-11-25 | 2026-11-25",
        "2026-1-5 | 2026-01-05",
        "25.11.2026 | 2026-11-25",
        "5. 1. 2026 | 2026-01-05",
        "25/11/2026 | 2026-11-25",
        "11/25/2026 | 2026-11-25",
        "05/05/2026 | 2026-05-05",
        "29 Feb 2024 | 2024-02-29",
        "03/04/2026 | Date is not clear: 03/04/2026 may be 3 April 2026 or 4 March 2026. Write the"
            + " month as a word",
        "25 Nov | Date must have its year in full, like 25 November 2026",
        "25/11/26 | Date must have its year in full, like 25 November 2026",
        "29 Feb 2026 | Date must be a date, like 25 November 2026; there is no such day",
        "31/31/2026 | Date must be a date, like 25 November 2026; there is no such day",
        "25 Nvo 2026 | Date must be a date, like 25 November 2026",
        "soon | Date must be a date, like 25 November 2026",
        "1 Jan 1826 | Date must be a date from 1900 to 2199",
        "26 Nov 2026 | Date must not be in the future: today is 25 November 2026",
        "'' | Date must not be blank",
      })
  void dates(String typed, String expected) {
    assertRead(typed, expected, "Date", field -> field.dateUpTo(TODAY));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "09:12 | 09:12",
        "9:12 | 09:12",
        "0912 | 09:12",
        "0000 | 00:00",
        "23:59 | 23:59",
        "10:81 | Landing must be a time, like 10:18",
        "24:00 | Landing must be a time, like 10:18",
        "912 | Landing must be a time, like 10:18",
        "9.12 | Landing must be a time, like 10:18",
        "noon | Landing must be a time, like 10:18",
      })
  void times(String typed, String expected) {
    assertRead(typed, expected, "Landing", Field::time);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1,234.5 | 1234.5",
        "12:30 | 12.5",
        "12:75 | Total has minutes or seconds above 59",
        "1e3 | Total is not a number of hours: write hours such as 12.5 or 12:30",
        "-1 | Total must not be negative",
        "1.2.3 | Total is not a number of hours: write hours such as 12.5 or 12:30",
        "' ' | Total must not be blank",
      })
  void hours(String typed, String expected) {
    assertRead(typed, expected, "Total", Field::hours);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2 | 2",
        "0 | 0",
        "9,117 | 9117",
        "9 117 | 9117",
        "1.5 | Landings must be a whole number, like 12",
        "two | Landings must be a whole number, like 12",
        "-1 | Landings must not be negative",
        "−1 | Landings must not be negative",
        "99999999 | Landings must be at most 10,000,000",
        "99999999999999999999 | Landings must be at most 10,000,000",
      })
  void counts(String typed, String expected) {
    assertRead(typed, expected, "Landings", Field::count);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "148 | 148",
        "120.5 | 120.5",
        "1,120.50 | 1120.50",
        ".5 | 0.5",
        "12,5 | Fuel has a comma: write a point, like 12.5",
        "1.25 | Fuel must have at most 1 digit after the point",
        "-3 | Fuel must not be negative",
        "1e3 | Fuel must be a number, like 12.5",
        "10000001 | Fuel must be at most 10,000,000",
      })
  void decimals(String typed, String expected) {
    assertRead(typed, expected, "Fuel", field -> field.decimal(1));
  }

  private static void assertRead(
      String typed, String expected, String label, Function<Field, ?> reader) {
    var posted = new MultivaluedHashMap<String, String>();
    posted.add("it", typed);
    Form form = Form.of(posted);
    Object value = reader.apply(form.required("it", label));
    assertThat(value == null ? form.error("it") : value.toString()).isEqualTo(expected);
    assertThat(form.isBad()).isEqualTo(value == null);
    assertThat(form.value("it")).isEqualTo(typed);
  }
}
