package trestle.house;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.EvaluationResult;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import io.quarkus.qute.TemplateInstance;
import io.quarkus.security.Authenticated;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.persistence.Entity;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZonedDateTime;
import java.util.List;
import trestle.web.Filing;
import trestle.web.Reading;

/** The rules of the house that a machine can keep, over any root package: a test breaks each. */
final class HouseRules {
  /** From the ground up: a room uses only rooms before it. */
  static final List<String> ROOMS =
      List.of(
          "reckoning",
          "formats",
          "ledger",
          "web",
          "people",
          "signing",
          "fleet",
          "profiles",
          "standing",
          "flights",
          "programme",
          "directives",
          "defects",
          "workshop",
          "apron",
          "overview",
          "records",
          "server",
          "demo");

  private final String root;

  HouseRules(String root) {
    this.root = root;
  }

  ArchRule reckoningIsPure() {
    return classes()
        .that()
        .resideInAPackage(root + ".reckoning..")
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage("java..", root + ".reckoning..");
  }

  EvaluationResult roomsUseOnlyRoomsBelow(JavaClasses code) {
    EvaluationResult all = null;
    for (int i = 0; i < ROOMS.size(); i++) {
      String[] above =
          ROOMS.subList(i + 1, ROOMS.size()).stream()
              .map(room -> root + "." + room + "..")
              .toArray(String[]::new);
      if (above.length > 0) {
        EvaluationResult one =
            noClasses()
                .that()
                .resideInAPackage(root + "." + ROOMS.get(i) + "..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(above)
                .allowEmptyShould(true)
                .evaluate(code);
        if (all == null) {
          all = one;
        } else {
          all.add(one);
        }
      }
    }
    return all;
  }

  ArchRule noRoomTouchesAnothersEntities() {
    return classes()
        .that()
        .areAnnotatedWith(Entity.class)
        .or()
        .haveSimpleNameEndingWith("Repository")
        .should()
        .notBePublic()
        .allowEmptyShould(true);
  }

  ArchRule onlyRepositoriesAskTheDatabase() {
    return noClasses()
        .that()
        .resideInAPackage(root + "..")
        .and()
        .resideOutsideOfPackage(root + ".server..")
        .and()
        .haveNameNotMatching(".*Repository(\\$.*)?")
        .should()
        .dependOnClassesThat(
            DescribedPredicate.describe(
                "ask the database",
                (JavaClass used) ->
                    used.isEquivalentTo(EntityManager.class)
                        || used.getPackageName().startsWith("io.quarkus.hibernate.orm.panache")
                        || used.getPackageName().startsWith("java.sql")
                        || used.getName().equals("org.hibernate.Session")));
  }

  ArchRule onlyPagesMakeTemplates() {
    return noClasses()
        .that()
        .haveNameNotMatching(".*(Pages|Errors|Templates|Answers)(\\$.*)?")
        .should()
        .dependOnClassesThat()
        .areAssignableTo(TemplateInstance.class)
        .allowEmptyShould(true);
  }

  ArchRule noApiShowsAnEntity() {
    return noClasses()
        .that()
        .haveSimpleNameEndingWith("Api")
        .should()
        .dependOnClassesThat()
        .areAnnotatedWith(Entity.class)
        .allowEmptyShould(true);
  }

  ArchRule onlyTheClockReadsTheClock() {
    return noClasses()
        .that()
        .doNotHaveSimpleName("TheClock")
        .should()
        .callMethod(Instant.class, "now")
        .orShould()
        .callMethod(LocalDate.class, "now")
        .orShould()
        .callMethod(LocalDateTime.class, "now")
        .orShould()
        .callMethod(ZonedDateTime.class, "now")
        .orShould()
        .callMethod(Clock.class, "systemUTC")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .allowEmptyShould(true);
  }

  ArchRule everyRouteSaysWhoMay() {
    return methods()
        .that()
        .areAnnotatedWith(GET.class)
        .or()
        .areAnnotatedWith(POST.class)
        .or()
        .areAnnotatedWith(PUT.class)
        .or()
        .areAnnotatedWith(DELETE.class)
        .should(sayWhoMay())
        .allowEmptyShould(true);
  }

  /** A page made once for all requests would answer everybody as its first visitor. */
  ArchRule everyPageIsMadeForItsRequest() {
    return classes()
        .that()
        .areAnnotatedWith(Path.class)
        .and()
        .haveSimpleNameEndingWith("Pages")
        .should()
        .beAnnotatedWith(RequestScoped.class)
        .allowEmptyShould(true);
  }

  ArchRule everyPostNamesItsMediaType() {
    return methods()
        .that()
        .areAnnotatedWith(POST.class)
        .should()
        .beAnnotatedWith(Consumes.class)
        .allowEmptyShould(true);
  }

  ArchRule transactionsOnlyOnUseCases() {
    return noClasses()
        .that()
        .haveNameMatching(".*(Pages|Api|Form|Repository)")
        .should()
        .beAnnotatedWith(Transactional.class)
        .orShould()
        .beAnnotatedWith(Filing.class)
        .orShould(haveAMethodInATransaction())
        .allowEmptyShould(true);
  }

  ArchRule overviewFilesNothing() {
    return noClasses()
        .that()
        .resideInAPackage(root + ".overview..")
        .should()
        .dependOnClassesThat()
        .haveNameMatching(".*\\.(Filing|Ledger|Filed)")
        .allowEmptyShould(true);
  }

  private static ArchCondition<JavaMethod> sayWhoMay() {
    return new ArchCondition<>("say who may call it") {
      @Override
      public void check(JavaMethod route, ConditionEvents events) {
        boolean says =
            route.isAnnotatedWith(RolesAllowed.class)
                || route.isAnnotatedWith(PermitAll.class)
                || route.isAnnotatedWith(Authenticated.class);
        events.add(
            new SimpleConditionEvent(
                route,
                says,
                route.getFullName() + (says ? " says" : " does not say") + " who may"));
      }
    };
  }

  private static ArchCondition<JavaClass> haveAMethodInATransaction() {
    return new ArchCondition<>("have a method in a transaction of its own") {
      @Override
      public void check(JavaClass type, ConditionEvents events) {
        for (JavaMethod method : type.getMethods()) {
          boolean opens =
              method.isAnnotatedWith(Transactional.class)
                  || method.isAnnotatedWith(Filing.class)
                  || method.isAnnotatedWith(Reading.class);
          events.add(
              new SimpleConditionEvent(
                  type, opens, method.getFullName() + (opens ? " opens one" : " opens none")));
        }
      }
    };
  }
}
