package trestle.flights;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import trestle.server.TestDatabase;

/**
 * The rules of the sequence written a second time, as slowly and plainly as can be, from all rows
 * of the tables: an aircraft with one revision of its particulars, and openings before its flights.
 */
final class Naive {
  private static final class F {
    String takeOffText;
    UUID entry;
    String day;
    long takeOff;
    long landing;
    Long out;
    Long in;
    int landings;
    String from;
    String to;
  }

  private static final class Change {
    long at;
    Long off;
    long on;
  }

  private final List<F> flights = new ArrayList<>();
  private final List<Change> changes = new ArrayList<>();
  private final List<String> notFlown = new ArrayList<>();
  private final List<String> steps = new ArrayList<>();
  private final List<String> breaks = new ArrayList<>();
  private boolean byMeter;
  private boolean tenths;
  private long hours;

  static List<String> steps(UUID aircraft) throws SQLException {
    return new Naive(aircraft).steps;
  }

  static List<String> breaks(UUID aircraft) throws SQLException {
    return new Naive(aircraft).breaks;
  }

  static long hours(UUID aircraft) throws SQLException {
    return new Naive(aircraft).hours;
  }

  private Naive(UUID aircraft) throws SQLException {
    read(aircraft);
    for (F f : flights) {
      long gap = 0;
      List<String> here = new ArrayList<>();
      if (f.out != null) {
        long back = Math.max(0, inFlight(f)[1]);
        F p1 = last(f, null);
        F p2 = p1 == null ? null : last(p1, null);
        if (p1 != null) {
          F compared = p1;
          boolean doubtful = p2 != null && (inFlight(p1)[1] > 0 || between(p2, p1)[1] > 0);
          if (doubtful && between(p2, f)[1] == 0) {
            compared = p2;
          }
          long[] run = between(compared, f);
          back += run[1];
          long unmetered = 0;
          for (F u : flights) {
            if (before(compared, u) && before(u, f)) {
              unmetered += own(u);
            }
          }
          gap = Math.max(0, run[0] - unmetered);
          if (gap > 0) {
            here.add("gap " + compared.takeOffText + " " + gap);
          }
        }
        if (back > 0) {
          here.add("meter-backwards " + (p1 == null ? "null" : p1.takeOffText) + " " + back);
        }
      }
      F over = null;
      F previous = null;
      for (F e : flights) {
        if (before(e, f)) {
          previous = e;
          if (e.landing > f.takeOff && (over == null || e.landing >= over.landing)) {
            over = e;
          }
        }
      }
      if (over != null) {
        here.add(
            "overlap " + over.takeOffText + " " + (Math.min(over.landing, f.landing) - f.takeOff));
      }
      if (previous != null && !previous.to.equals(f.from)) {
        here.add("place " + previous.takeOffText + " null");
      }
      Collections.sort(here);
      here.forEach(each -> breaks.add(f.takeOffText + " " + each));
      boolean counts = gap > 0 && !notFlown.contains(f.entry + " " + gap);
      long all = own(f) + (counts ? gap : 0);
      hours += all;
      steps.add(f.takeOffText + " " + f.day + " " + f.landing + " " + all + " " + f.landings);
    }
  }

  private long own(F f) {
    long seconds = f.landing - f.takeOff;
    if (byMeter && f.out != null && inFlight(f)[1] == 0) {
      seconds = inFlight(f)[0];
    }
    return tenths ? (seconds + 180) / 360 * 360 : seconds;
  }

  private F last(F f, F none) {
    F last = none;
    for (F e : flights) {
      if (before(e, f) && e.out != null) {
        last = e;
      }
    }
    return last;
  }

  private static boolean before(F one, F other) {
    return one.takeOff < other.takeOff;
  }

  private long[] inFlight(F f) {
    return run(f.out, f.in, f.takeOff + 1, f.landing - 1);
  }

  private long[] between(F earlier, F later) {
    return run(earlier.in, later.out, earlier.landing, later.takeOff);
  }

  /** Forwards and backwards through the changes of a stretch, ends included. */
  private long[] run(long from, long to, long first, long last) {
    List<Long> moves = new ArrayList<>();
    long reading = from;
    for (Change c : changes) {
      if (c.at >= first && c.at <= last) {
        if (c.off != null) {
          moves.add(c.off - reading);
        }
        reading = c.on;
      }
    }
    moves.add(to - reading);
    long forwards = 0;
    long backwards = 0;
    for (long move : moves) {
      if (move > 0) {
        forwards += move;
      } else {
        backwards -= move;
      }
    }
    return new long[] {forwards, backwards};
  }

  private void read(UUID aircraft) throws SQLException {
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute("set time zone 'UTC'");
      ResultSet row =
          statement.executeQuery(
              "select * from aircraft_particulars where aircraft_id = '" + aircraft + "'");
      row.next();
      byMeter = row.getString("hours_basis").equals("meter");
      tenths = row.getString("rounding").equals("tenths");
      row =
          statement.executeQuery(
              "select extract(epoch from happened_at)::bigint as at, off_reading, on_reading"
                  + " from meter_change where aircraft_id = '"
                  + aircraft
                  + "' order by happened_at, ledger_seq");
      while (row.next()) {
        Change c = new Change();
        c.at = row.getLong("at");
        c.off = (Long) row.getObject("off_reading");
        c.on = row.getLong("on_reading");
        changes.add(c);
      }
      row =
          statement.executeQuery(
              "select f.*, extract(epoch from take_off_at)::bigint as off,"
                  + " extract(epoch from landing_at)::bigint as land from flight f"
                  + " where aircraft_id = '"
                  + aircraft
                  + "' and not void and id not in"
                  + " (select corrects from flight where corrects is not null)"
                  + " order by take_off_at");
      while (row.next()) {
        F f = new F();
        f.takeOffText = row.getString("take_off_at");
        f.entry = (UUID) row.getObject("entry_id");
        f.day = row.getString("happened_on");
        f.takeOff = row.getLong("off");
        f.landing = row.getLong("land");
        f.out = (Long) row.getObject("meter_out");
        f.in = (Long) row.getObject("meter_in");
        f.landings = row.getInt("landings");
        f.from = row.getString("from_place");
        f.to = row.getString("to_place");
        flights.add(f);
      }
      row =
          statement.executeQuery(
              "select distinct on (f.entry_id, e.amount) f.entry_id, e.amount, e.flown"
                  + " from break_explanation e join flight f on f.id = e.flight_id"
                  + " where e.kind = 'gap' and e.aircraft_id = '"
                  + aircraft
                  + "' order by f.entry_id, e.amount, e.ledger_seq desc");
      while (row.next()) {
        if (!row.getBoolean("flown")) {
          notFlown.add(row.getString("entry_id") + " " + row.getLong("amount"));
        }
      }
    }
  }
}
