package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import trestle.ledger.verify.Verdict;
import trestle.ledger.verify.Verifier;
import trestle.people.Operators;
import trestle.records.Here;
import trestle.records.OutsideText;
import trestle.records.Verifications;

/**
 * {@code verify}: every operator's ledger, or that of one; against heads and proofs from outside
 * where some are given. Exit code 1 when anything disagrees.
 */
@ApplicationScoped
class VerifyCommand implements Command {
  private static final String TEXT_ONLY = "--text-only";
  private static final String OPERATOR = "--operator=";

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
    int wrong = strange(outside, out);
    for (Operators.Line operator : operators.all(Here.anybody(null))) {
      if (isAsked(operator, arguments)) {
        wrong += verify(operator, textOnly, outside, out) ? 0 : 1;
      }
    }
    return wrong == 0 ? 0 : 1;
  }

  /** How many are of no ledger that is kept here. */
  private int strange(List<OutsideText> outside, PrintStream out) {
    List<UUID> known = operators.all(Here.anybody(null)).stream().map(Operators.Line::id).toList();
    List<OutsideText> strange =
        outside.stream().filter(each -> !known.contains(each.head().operatorId())).toList();
    strange.forEach(
        each -> out.printf("No ledger of operator %s is kept here.%n", each.head().operatorId()));
    return strange.size();
  }

  private static boolean isAsked(Operators.Line operator, List<String> arguments) {
    return arguments.stream().noneMatch(each -> each.startsWith(OPERATOR))
        || arguments.contains(OPERATOR + operator.id())
        || arguments.contains(OPERATOR + operator.name());
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
