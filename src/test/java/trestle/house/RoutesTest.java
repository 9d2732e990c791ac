package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import trestle.house.Routes.Route;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;

/** The table of who may call what: equal to the code, and walked by somebody in each role. */
@QuarkusTest
class RoutesTest {
  @Inject Operators operators;
  @Inject Members members;

  @Test
  void theTableIsTheCode() throws IOException {
    assertThat(rows(Routes.inDocs())).isEqualTo(rows(Routes.inCode()));
  }

  @Test
  void nobodyGetsInWithoutSigningIn() {
    Visitor nobody = Visitor.atTheDoor();
    for (Route route : pages()) {
      if (!route.whoMay().equals(Routes.ANYONE)) {
        Response answer = walk(nobody, route);
        boolean get = route.method().equals("GET");
        assertThat(answer.statusCode()).as(route.row()).isEqualTo(get ? 303 : 401);
        assertThat(answer.asString()).as(route.row()).doesNotContain("Exception");
      }
    }
  }

  @Test
  void eachRoleGetsWhereTheTableSaysAndNowhereElse() {
    Company company = Company.founded("routes-" + UUID.randomUUID(), operators, members);
    Arrays.stream(Role.values())
        .parallel()
        .forEach(role -> walksWhereTheTableSays(role, company.visitor(role)));
  }

  private static void walksWhereTheTableSays(Role role, Visitor visitor) {
    for (Route route : pages()) {
      if (endsSessions(route)) {
        continue;
      }
      int status = walk(visitor, route).statusCode();
      boolean may =
          route.whoMay().equals(Routes.ANYONE)
              || route.whoMay().equals(Routes.SIGNED_IN)
              || route.words().contains(role.word());
      if (may) {
        assertThat(status).as("%s %s", role, route.row()).isIn(200, 303, 400, 404, 409, 422);
      } else {
        assertThat(status).as("%s %s", role, route.row()).isEqualTo(403);
      }
    }
  }

  private static boolean endsSessions(Route route) {
    return route.path().startsWith("/sign-") || route.path().equals("/account/sign-out-everywhere");
  }

  private static List<Route> pages() {
    return Routes.inCode().stream().filter(route -> !route.path().startsWith("/api/")).toList();
  }

  /**
   * Asks with ids that are nobody's and a form without a field: refused or not found, never 500.
   */
  private static Response walk(Visitor visitor, Route route) {
    String path = route.path().replaceAll("\\{[^}]+}", UUID.randomUUID().toString());
    return route.method().equals("GET") ? visitor.get(path) : visitor.post(path, Map.of());
  }

  private static String rows(List<Route> routes) {
    return routes.stream().map(Route::row).sorted().collect(Collectors.joining("\n"));
  }

  /** Prints the table as the code has it, for docs/routes.md. */
  public static void main(String... args) {
    Stream.of(
            "# Routes and who may call them",
            "",
            "A test holds this table against the code and walks it in every role. A member of"
                + " another operator gets 404; who may not, within their own operator, 403 with a"
                + " sentence.",
            "",
            "| method | path | who may |",
            "| --- | --- | --- |")
        .forEach(System.out::println);
    Routes.inCode().forEach(route -> System.out.println(route.row()));
  }
}
