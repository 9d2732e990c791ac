package trestle.house;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import io.quarkus.security.Authenticated;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import java.io.IOException;
import java.lang.annotation.Annotation;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Every route the code has, and who may call it, as its annotations say. */
final class Routes {
  static final String ANYONE = "anyone";
  static final String SIGNED_IN = "anyone signed in";
  private static final List<Class<? extends Annotation>> METHODS =
      List.of(GET.class, POST.class, PUT.class, DELETE.class);

  record Route(String method, String path, String whoMay) {
    Set<String> words() {
      return new TreeSet<>(Arrays.asList(whoMay.split(", ")));
    }

    String row() {
      return "| " + method + " | `" + path + "` | " + whoMay + " |";
    }
  }

  private Routes() {}

  static List<Route> inCode() {
    List<Route> routes = new ArrayList<>();
    for (JavaClass type :
        new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("trestle")) {
      for (JavaMethod method : type.getMethods()) {
        for (Class<? extends Annotation> verb : METHODS) {
          if (method.isAnnotatedWith(verb)) {
            routes.add(new Route(verb.getSimpleName(), path(type, method), whoMay(type, method)));
          }
        }
      }
    }
    routes.sort(Comparator.comparing(Route::path).thenComparing(Route::method));
    return routes;
  }

  static List<Route> inDocs() throws IOException {
    return Files.readAllLines(java.nio.file.Path.of("docs/routes.md")).stream()
        .filter(line -> line.matches("\\| (GET|POST|PUT|DELETE) \\|.*"))
        .map(line -> line.split("\\|"))
        .map(cells -> new Route(cells[1].trim(), cells[2].trim().replace("`", ""), cells[3].trim()))
        .toList();
  }

  private static String path(JavaClass type, JavaMethod method) {
    String whole = "/";
    if (type.isAnnotatedWith(Path.class)) {
      whole += type.getAnnotationOfType(Path.class).value() + "/";
    }
    if (method.isAnnotatedWith(Path.class)) {
      whole += method.getAnnotationOfType(Path.class).value();
    }
    String tidy =
        whole.replaceAll("/+", "/").replaceAll("\\{(\\w+)\\s*:(?:[^{}]|\\{[^{}]*})*}", "{$1}");
    return tidy.length() > 1 && tidy.endsWith("/") ? tidy.substring(0, tidy.length() - 1) : tidy;
  }

  private static String whoMay(JavaClass type, JavaMethod method) {
    if (method.isAnnotatedWith(PermitAll.class)) {
      return ANYONE;
    }
    if (method.isAnnotatedWith(Authenticated.class)) {
      return SIGNED_IN;
    }
    RolesAllowed roles =
        method.isAnnotatedWith(RolesAllowed.class)
            ? method.getAnnotationOfType(RolesAllowed.class)
            : type.getAnnotationOfType(RolesAllowed.class);
    return String.join(", ", new TreeSet<>(Arrays.asList(roles.value())));
  }
}
