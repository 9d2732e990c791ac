package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.ws.rs.core.MultivaluedHashMap;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.AircraftSheet;
import trestle.fleet.FuelUnit;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.reckoning.Counter;
import trestle.web.Form;

/** What the form of a flight makes of times past midnight and across changes of the clock. */
class FlightFormTest {
  private static final ZoneId UTC = ZoneId.of("UTC");

  /** Clocks go forward on 8 March and back on 1 November 2026, at 2:00 (IANA time zones). */
  private static final ZoneId ST_JOHNS = ZoneId.of("America/St_Johns");

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

  @Test
  void landingEarlierOnTheClockIsOfferedAsTheNextDay() {
    FlightForm asked = read(UTC, times("24 Nov 2026", "23:40", "00:20"));
    assertThat(asked.asksNextDay()).isTrue();
    assertThat(asked.nextDay()).isEqualTo("25 November 2026");
    assertThat(asked.form().error("next-day"))
        .isEqualTo(
            "Landing 00:20 is before take-off 23:40: was it the next day, 25 November 2026?");

    Form confirmed = times("24 Nov 2026", "23:40", "00:20").with("next-day", "yes");
    FlightDraft draft = form(UTC, confirmed, List.of()).read();
    assertThat(draft.landing()).isEqualTo(Instant.parse("2026-11-25T00:20:00Z"));
  }

  @Test
  void aTickLeftOverFromTimesPutRightSaysNothing() {
    Form form = times("24 Nov 2026", "00:10", "00:20").with("next-day", "yes");
    assertThat(form(UTC, form, List.of()).read().landing())
        .isEqualTo(Instant.parse("2026-11-24T00:20:00Z"));
  }

  @Test
  void blocksPastMidnightBelongToTheDayNextToThem() {
    Form form =
        times("24 Nov 2026", "00:05", "23:50")
            .with("off-blocks", "23:55")
            .with("on-blocks", "00:03");
    FlightDraft draft = form(UTC, form, List.of()).read();
    assertThat(draft.offBlocks()).isEqualTo(Instant.parse("2026-11-23T23:55:00Z"));
    assertThat(draft.onBlocks()).isEqualTo(Instant.parse("2026-11-25T00:03:00Z"));
  }

  @Test
  void aTimeThatCameTwiceIsAskedAbout() {
    FlightForm asked = read(ST_JOHNS, times("1 Nov 2026", "01:30", "03:00"));
    assertThat(asked.form().error("take-off-which"))
        .isEqualTo("Take-off 01:30 came twice on 1 November 2026: say which.");
    assertThat(asked.asks().get(0).options())
        .extracting(option -> option.value())
        .containsExactly("-02:30", "-03:30");

    Form first = times("1 Nov 2026", "01:30", "03:00").with("take-off-which", "-02:30");
    assertThat(form(ST_JOHNS, first, List.of()).read().takeOff())
        .isEqualTo(Instant.parse("2026-11-01T04:00:00Z"));
    Form second = times("1 Nov 2026", "01:30", "03:00").with("take-off-which", "-03:30");
    assertThat(form(ST_JOHNS, second, List.of()).read().takeOff())
        .isEqualTo(Instant.parse("2026-11-01T05:00:00Z"));
  }

  @Test
  void aTimeThatNeverCameIsRefused() {
    FlightForm asked = read(ST_JOHNS, times("8 Mar 2026", "02:30", "04:00"));
    assertThat(asked.form().error("take-off"))
        .isEqualTo("Take-off 02:30 was no time on 8 March 2026: clocks went from 02:00 to 03:00.");
  }

  @Test
  void aFlightOverTheChangeLastsAsLongAsItWasInTheAir() {
    FlightDraft draft = form(ST_JOHNS, times("8 Mar 2026", "01:30", "03:30"), List.of()).read();
    assertThat(draft.landing().getEpochSecond() - draft.takeOff().getEpochSecond()).isEqualTo(3600);
  }

  @Test
  void whatCannotBeReadIsToldAtItsField() {
    Form form =
        times("26 Nov 2026", "10:81", "11:00")
            .with("heater-hours", "12:75")
            .with("landings", "1.5")
            .with("fuel-left", "1e3");
    FlightForm read = form(UTC, form, List.of(new Counter("heater-hours")));
    assertThat(read.read()).isNull();
    assertThat(read.form().error("date")).contains("must not be in the future");
    assertThat(read.form().error("take-off")).isEqualTo("Take-off must be a time, like 10:18");
    assertThat(read.form().error("heater-hours")).contains("minutes or seconds above 59");
    assertThat(read.form().isBad("landings")).isTrue();
    assertThat(read.form().isBad("fuel-left")).isTrue();
    assertThat(read.form().value("take-off")).isEqualTo("10:81");
  }

  @Test
  void aFlightComesBackFromItsFormAsItWas() {
    Form form =
        times("24 Nov 2026", "23:40", "00:20").with("next-day", "yes").with("oil-engine", "1.5");
    FlightDraft draft = form(UTC, form, List.of()).read();
    assertThat(form(UTC, FlightForm.filled(draft, UTC), List.of()).read()).isEqualTo(draft);
  }

  private static FlightForm read(ZoneId zone, Form form) {
    FlightForm read = form(zone, form, List.of());
    assertThat(read.read()).isNull();
    return read;
  }

  private static FlightForm form(ZoneId zone, Form form, List<Counter> counted) {
    AircraftSheet aircraft =
        new AircraftSheet(
            UUID.randomUUID(), UUID.randomUUID(), Particulars.of("QX-SOR", "Skerry 200", "S-1"));
    return new FlightForm(
        form,
        zone,
        TODAY,
        aircraft,
        counted,
        Position.single(),
        FluidArrangement.none(FuelUnit.LITRES),
        null);
  }

  private static Form times(String date, String takeOff, String landing) {
    MultivaluedHashMap<String, String> posted = new MultivaluedHashMap<>();
    Map.of(
            "date", date,
            "from", "Port Maddern",
            "to", "Skell Island",
            "take-off", takeOff,
            "landing", landing,
            "landings", "1",
            "commander", "I. Tarn")
        .forEach(posted::putSingle);
    return Form.of(posted);
  }
}
