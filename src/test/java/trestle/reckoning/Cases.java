package trestle.reckoning;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;

/** Tables of named cases: one test a row, under the row's name. */
final class Cases {

  private Cases() {}

  static <T> Stream<DynamicTest> each(List<T> table, Function<T, String> name, Consumer<T> check) {
    return table.stream()
        .map(row -> DynamicTest.dynamicTest(name.apply(row), () -> check.accept(row)));
  }
}
