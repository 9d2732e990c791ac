package trestle.house;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.ToolProvider;

/**
 * Small sources that break a rule, compiled here and never part of the program: as classes of the
 * test tree they would become routes and tables of every test.
 */
final class Samples {
  private static final Pattern PACKAGE = Pattern.compile("package ([a-z.]+);");
  private static final Pattern TYPE = Pattern.compile("(?:class|interface|record) (\\w+)");

  private Samples() {}

  static JavaClasses compiled(Path folder, String... sources) throws IOException {
    List<String> arguments =
        new ArrayList<>(
            List.of(
                "-proc:none",
                "-cp",
                System.getProperty("java.class.path"),
                "-d",
                folder.toString()));
    for (String source : sources) {
      Path file =
          folder.resolve(
              first(PACKAGE, source).replace('.', '_') + "/" + first(TYPE, source) + ".java");
      Files.createDirectories(file.getParent());
      Files.writeString(file, source);
      arguments.add(file.toString());
    }
    int exit =
        ToolProvider.getSystemJavaCompiler()
            .run(null, null, null, arguments.toArray(String[]::new));
    if (exit != 0) {
      throw new IllegalStateException("The sample does not compile");
    }
    return new ClassFileImporter().importPath(folder);
  }

  private static String first(Pattern pattern, String source) {
    Matcher found = pattern.matcher(source);
    if (!found.find()) {
      throw new IllegalArgumentException("No " + pattern + " in a sample");
    }
    return found.group(1);
  }
}
