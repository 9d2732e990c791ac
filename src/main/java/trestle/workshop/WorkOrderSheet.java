package trestle.workshop;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Everything of one work order. */
public record WorkOrderSheet(
    OrderSheet order, List<Step> steps, List<OrderLine> lines, ReleaseSheet release) {

  /** One step of an order: issued, approved, started, cancelled. */
  public record Step(String step, String remark, Instant at, LocalDate on, UUID by) {}

  public OrderState state() {
    if (did(WorkOrderStep.CANCELLED)) {
      return OrderState.CANCELLED;
    }
    if (release != null) {
      return release.airworthy() ? OrderState.RELEASED : OrderState.NOT_AIRWORTHY;
    }
    if (did(WorkOrderStep.STARTED)) {
      return !lines.isEmpty() && lines.stream().allMatch(OrderLine::isClosed)
          ? OrderState.AWAITING_RELEASE
          : OrderState.IN_WORK;
    }
    return did(WorkOrderStep.ISSUED) ? OrderState.ISSUED : OrderState.DRAFT;
  }

  public boolean did(String step) {
    return step(step).isPresent();
  }

  public Optional<Step> step(String step) {
    return steps.stream().filter(one -> one.step().equals(step)).findFirst();
  }

  /** Whether the owner has still to approve it before work starts. */
  public boolean awaitsApproval() {
    return order.needsApproval() && !did(WorkOrderStep.APPROVED);
  }

  public Optional<OrderLine> line(UUID lineId) {
    return lines.stream().filter(one -> one.line().id().equals(lineId)).findFirst();
  }

  /** The tasks of a requirement's line. */
  public List<OrderLine> tasksOf(UUID lineId) {
    return lines.stream().filter(one -> lineId.equals(one.line().parentLine())).toList();
  }

  /** What grew out of a line: its findings. */
  public List<OrderLine> findingsOf(UUID lineId) {
    return lines.stream().filter(one -> lineId.equals(one.line().fromLine())).toList();
  }

  public List<OrderLine> open() {
    return lines.stream().filter(line -> !line.isSigned() && !line.isClosed()).toList();
  }

  public List<OrderLine> awaitingInspection() {
    return lines.stream().filter(OrderLine::awaitsInspection).toList();
  }

  public long signed() {
    return lines.stream().filter(OrderLine::isSigned).count();
  }

  /** The lines that stand by themselves, gathered by area: a panel is opened once. */
  public List<OrderLine> byArea() {
    return lines.stream()
        .sorted(
            Comparator.comparing((OrderLine line) -> line.line().area())
                .thenComparing(line -> line.line().ordinal()))
        .toList();
  }

  /** The day on which the last of the signed work was done, or null. */
  public LocalDate completedOn() {
    return lines.stream()
        .filter(OrderLine::isSigned)
        .map(line -> line.work().on())
        .max(Comparator.naturalOrder())
        .orElse(null);
  }
}
