package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URL;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import trestle.apron.LossyProxy.Chances;
import trestle.defects.DefectBook;
import trestle.fleet.Hangar;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Many reports over a bad link leave exactly that many records. 200 here; for 10,000: {@code mvn
 * test -Dtest=LossyLinkTest -Dtrestle.submissions=10000}.
 */
@QuarkusTest
class LossyLinkTest {
  private static final int SUBMISSIONS = Integer.getInteger("trestle.submissions", 200);
  private static final int AIRCRAFT = 5;
  private static final int AT_ONCE = 8;
  private static final int ONE_IN_HAS_A_DEFECT = 10;
  private static final Instant BEGINNING = Instant.parse("2024-01-01T00:00:00Z");
  private static final Chances BAD = new Chances(0.15, 0.15, 0.15, 0.15);

  @TestHTTPResource("/")
  URL root;

  @Inject Hangar hangar;
  @Inject Flights flights;
  @Inject DefectBook defects;
  @Inject Operators operators;
  @Inject Members members;

  @Test
  void exactlyAsManyRecordsAsReports() throws Exception {
    Company company = Company.founded("lossy-" + UUID.randomUUID(), operators, members);
    List<UUID> fleet = fleet(company);
    Instant began = Instant.now();
    List<Long> numbers;
    LossyProxy.Toll toll;
    try (LossyProxy link =
        LossyProxy.to(
            "http://127.0.0.1:" + root.getPort(),
            BAD,
            uri -> uri.getPath().endsWith("/reports"),
            20261125L)) {
      Phone phone =
          new Phone("http://127.0.0.1:" + link.port(), "pilot@" + company.name(), Company.PASSWORD);
      numbers = sendAll(phone, fleet);
      toll = link.toll();
    }
    System.out.printf(
        "%,d reports acknowledged in %s s; %s%n",
        numbers.size(), Duration.between(began, Instant.now()).toSeconds(), toll);
    assertThat(new HashSet<>(numbers)).as("numbers given").hasSize(SUBMISSIONS);
    assertThat(toll.requestsLost()).isPositive();
    assertThat(toll.answersLost()).isPositive();
    assertThat(toll.twice()).isPositive();
    assertThat(toll.overtaken()).isPositive();
    Viewer pilot = company.viewer(Role.PILOT);
    long filed = 0;
    for (UUID aircraft : fleet) {
      filed += flights.page(pilot, aircraft, View.EVERYTHING, 1).flights();
    }
    assertThat(filed).as("flights filed").isEqualTo(SUBMISSIONS);
    assertThat(defects.page(pilot, null, false, 1).defects())
        .as("defects filed")
        .isEqualTo(SUBMISSIONS / ONE_IN_HAS_A_DEFECT);
  }

  private List<UUID> fleet(Company company) {
    List<UUID> fleet = new ArrayList<>();
    for (int i = 0; i < AIRCRAFT; i++) {
      fleet.add(hangar.single(company.viewer(Role.OWNER), "QX-LS" + (char) ('A' + i), BEGINNING));
    }
    return fleet;
  }

  private static List<Long> sendAll(Phone phone, List<UUID> fleet) throws Exception {
    ExecutorService hands = Executors.newFixedThreadPool(AT_ONCE);
    try {
      List<Callable<Long>> reports = new ArrayList<>();
      for (int i = 0; i < SUBMISSIONS; i++) {
        String path = "/aircraft/" + fleet.get(i % AIRCRAFT) + "/reports";
        Map<String, String> report = report(i);
        reports.add(() -> phone.sent(path, report));
      }
      List<Long> numbers = new ArrayList<>();
      for (Future<Long> number : hands.invokeAll(reports)) {
        numbers.add(number.get());
      }
      return numbers;
    } finally {
      hands.shutdownNow();
    }
  }

  private static Map<String, String> report(int i) {
    LocalDateTime off =
        LocalDateTime.ofInstant(BEGINNING, ZoneOffset.UTC)
            .plusDays(1)
            .plusHours(4L * (i / AIRCRAFT));
    Map<String, String> report = new LinkedHashMap<>();
    report.put("form-key", UUID.randomUUID().toString());
    report.put("date", off.toLocalDate().toString());
    report.put("from", "Port Maddern");
    report.put("to", "Port Maddern");
    report.put("take-off", off.toLocalTime().toString());
    report.put("landing", off.toLocalTime().plusMinutes(66).toString());
    report.put("landings", "1");
    report.put("commander", "R. Ness");
    if (i % ONE_IN_HAS_A_DEFECT == 0) {
      report.put("anything-wrong", "defect");
      report.put("words", "Alternator light flickered, report " + i);
      report.put("judgement", "can-fly");
    } else {
      report.put("anything-wrong", "nothing");
    }
    return report;
  }
}
