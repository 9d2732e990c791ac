package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.verify.Verdict;
import trestle.ledger.verify.Verifier;
import trestle.people.Operators;
import trestle.records.Here;
import trestle.records.OutsideText;
import trestle.records.Verifications;

/**
 * {@code verify}: every operator's ledger, or that of one; against heads and proofs from outside
 * where some are given. Exit code 1 when anything disagrees, or is of a ledger that was not asked
 * for; 2 for a word or an operator that there is not.
 */
@ApplicationScoped
class VerifyCommand implements Command {
  private static final String TEXT_ONLY = "--text-only";
  private static final String OPERATOR = "--operator=";
  private static final String SAY =
      "Say: verify [--operator=<id or name>] [--text-only] [<text> ...]";

  @Inject Operators operators;
  @Inject Verifier verifier;
  @Inject Verifications verifications;

  @Override
  public String name() {
    return "verify";
  }

  @Override
  public int run(List<String> arguments, PrintStream out) {
    boolean textOnly = arguments.contains(TEXT_ONLY);
    List<OutsideText> outside;
    try {
      outside =
          arguments.stream()
              .filter(each -> !each.startsWith("--"))
              .map(OutsideText::parse)
              .toList();
    } catch (IllegalArgumentException e) {
      out.println(e.getMessage());
      return StartRefused.USAGE;
    }
    List<Operators.Line> all = operators.all(Here.anybody(null));
    Optional<String> unknown = arguments.stream().filter(each -> isUnknown(each, all)).findFirst();
    if (unknown.isPresent()) {
      out.println(
          unknown.get().startsWith(OPERATOR)
              ? "There is no operator \"%s\" here.".formatted(nameIn(unknown.get()))
              : "There is no option \"%s\". %s".formatted(unknown.get(), SAY));
      return StartRefused.USAGE;
    }
    List<Operators.Line> asked = all.stream().filter(each -> isAsked(each, arguments)).toList();
    int wrong = strange(outside, all, asked, out);
    for (Operators.Line operator : asked) {
      wrong += verify(operator, textOnly, outside, out) ? 0 : 1;
    }
    return wrong == 0 ? 0 : 1;
  }

  private static boolean isUnknown(String word, List<Operators.Line> all) {
    return word.startsWith(OPERATOR)
        ? all.stream().noneMatch(operator -> isNamed(operator, nameIn(word)))
        : word.startsWith("--") && !word.equals(TEXT_ONLY);
  }

  private static String nameIn(String word) {
    return word.substring(OPERATOR.length());
  }

  private static boolean isNamed(Operators.Line operator, String name) {
    return name.equals(operator.id().toString()) || name.equals(operator.name());
  }

  /** How many are of no ledger that is kept here, or of one that is not verified. */
  private static int strange(
      List<OutsideText> outside,
      List<Operators.Line> all,
      List<Operators.Line> asked,
      PrintStream out) {
    int strange = 0;
    for (OutsideText each : outside) {
      UUID of = each.head().operatorId();
      if (asked.stream().noneMatch(operator -> operator.id().equals(of))) {
        boolean kept = all.stream().anyMatch(operator -> operator.id().equals(of));
        out.printf(
            kept
                ? "From outside: a text is of operator %s, whose ledger was not to be verified.%n"
                : "No ledger of operator %s is kept here.%n",
            of);
        strange++;
      }
    }
    return strange;
  }

  private static boolean isAsked(Operators.Line operator, List<String> arguments) {
    List<String> names =
        arguments.stream()
            .filter(each -> each.startsWith(OPERATOR))
            .map(VerifyCommand::nameIn)
            .toList();
    return names.isEmpty() || names.stream().anyMatch(name -> isNamed(operator, name));
  }

  private boolean verify(
      Operators.Line operator, boolean textOnly, List<OutsideText> outside, PrintStream out) {
    long before = System.nanoTime();
    Verdict verdict = verifier.verify(operator.id(), textOnly);
    double seconds = (System.nanoTime() - before) / 1e9;
    out.printf(
        "%s: %d records in %.1f s, root %s%n",
        operator.name(), verdict.size(), seconds, HexFormat.of().formatHex(verdict.root()));
    verdict.trouble().ifPresent(trouble -> out.println("  " + trouble.sentence()));
    boolean agrees = true;
    for (OutsideText each : outside) {
      agrees &= agrees(operator.id(), each, out);
    }
    boolean sound = verdict.isSound() && agrees;
    out.println(sound ? "  It is as it was filed." : "  It does not verify.");
    return sound;
  }

  private boolean agrees(UUID operator, OutsideText given, PrintStream out) {
    if (!given.head().operatorId().equals(operator)) {
      return true;
    }
    List<String> troubles = verifications.troubles(Here.anybody(operator), given);
    troubles.forEach(trouble -> out.println("  From outside: " + trouble));
    return troubles.isEmpty();
  }
}
