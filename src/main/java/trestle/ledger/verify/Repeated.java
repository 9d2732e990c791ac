package trestle.ledger.verify;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import trestle.ledger.Filed;
import trestle.ledger.FiledJson;
import trestle.ledger.Kind;
import trestle.ledger.Repeats;
import trestle.ledger.verify.VerifyRepository.Reader;
import trestle.ledger.verify.VerifyRepository.Rows;

/**
 * Rows that are not filed themselves, but whose content filed rows repeat: whether they still say
 * the same.
 *
 * @param other the table of those rows
 * @param by the column by which a filed row names one
 */
record Repeated(String kind, String table, String other, String by, List<String> columns) {

  static Optional<Repeated> of(Class<? extends Filed> type) {
    return Optional.ofNullable(type.getAnnotation(Repeats.class))
        .map(
            repeats ->
                new Repeated(
                    type.getAnnotation(Kind.class).value(),
                    FiledJson.table(type),
                    repeats.table(),
                    repeats.by(),
                    List.of(repeats.columns())));
  }

  /** The first trouble, or null. */
  static Trouble trouble(Reader reader, List<Repeated> all) {
    for (Repeated one : all) {
      try (Rows differing = reader.differing(one)) {
        if (differing.next()) {
          long seq = differing.number(0);
          return new Trouble(
              seq, Words.repeatedDiffers(seq, one.kind(), one.other(), differing.text(1)));
        }
      }
    }
    return null;
  }

  /** Filed rows in which something is repeated that the other row does not say, or not so. */
  String differing() {
    return "select t.ledger_seq, t.%s::text from %s t left join %s o on o.operator_id = t.operator_id and o.id = t.%s where t.operator_id = ? and num_nonnulls(%s) > 0 and (%s) is distinct from (%s) order by 1 limit 1"
        .formatted(by, table, other, by, names("t.of_"), names("t.of_"), names("o."));
  }

  private String names(String prefix) {
    return columns.stream().map(name -> prefix + name).collect(Collectors.joining(", "));
  }
}
