package trestle.workshop;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import trestle.formats.CanonicalJson;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.programme.RequirementRecords;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * What the inspection that a requirement asks for looks at, group by group. A list is revised as a
 * whole; orders drawn up before keep the tasks they were drawn up with.
 */
@ApplicationScoped
public class TaskLists {
  static final int MOST = 400;

  @Inject WorkRepository repository;
  @Inject RequirementRecords requirementRecords;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * @param area its group
   * @param data where it is described, or "" for the requirement's own reference
   * @param independent whether a second person inspects it
   */
  public record Task(Area area, String title, String data, boolean independent) {
    public Task {
      title = title.strip();
      data = data == null ? "" : data.strip();
      if (title.isEmpty() || title.length() > 300) {
        throw new IllegalArgumentException("must have tasks of 1 to 300 characters");
      }
      if (data.length() > 200) {
        throw new IllegalArgumentException("must have data of at most 200 characters");
      }
    }
  }

  /** One revision. */
  public record Listed(
      UUID revisionId, List<Task> tasks, String approvedBy, String reason, LocalDate on, UUID by) {}

  /** Every revision of a requirement's list, oldest first; none where it has no list. */
  @Reading
  public List<Listed> history(Viewer viewer, UUID requirementId) {
    requirementRecords.history(viewer, requirementId);
    return repository.taskLists(List.of(requirementId)).stream().map(TaskLists::listed).toList();
  }

  /** The tasks of some requirements as their lists have them now; those without a list left out. */
  @Reading
  public Map<UUID, List<Task>> tasks(Viewer viewer, Collection<UUID> requirementIds) {
    Map<UUID, List<Task>> tasks = new HashMap<>();
    if (!requirementIds.isEmpty()) {
      repository
          .taskLists(requirementIds)
          .forEach(row -> tasks.put(row.requirementId, parse(row.tasks)));
    }
    return tasks;
  }

  /**
   * Files a list, the first or a revision of it.
   *
   * @param revises the revision that the person saw, or null
   * @return its id
   * @throws Stale when someone revised it since the form was opened
   */
  @Filing
  public UUID revise(
      Viewer viewer,
      UUID requirementId,
      UUID revises,
      List<Task> tasks,
      String approvedBy,
      String reason,
      UUID formKey) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)) {
      throw new Refusal("", "Task lists are for owners, controllers and engineers.");
    }
    requirementRecords.history(viewer, requirementId);
    repository.lock("task list " + requirementId);
    TaskList before = repository.ofForm(TaskList.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    check(tasks, approvedBy, revises, reason);
    List<TaskList> all = repository.taskLists(List.of(requirementId));
    UUID latest = all.isEmpty() ? null : OrderBook.lastOf(all).id();
    if (!Objects.equals(latest, revises)) {
      throw new Stale("Someone revised this task list since you opened this form.");
    }
    Instant now = clock.instant();
    TaskList row = new TaskList();
    row.requirementId = requirementId;
    row.revises = revises;
    row.tasks = json(tasks);
    row.approvedBy = approvedBy.strip();
    row.because(reason == null || reason.isBlank() ? null : reason.strip());
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
    return row.id();
  }

  private static void check(List<Task> tasks, String approvedBy, UUID revises, String reason) {
    if (tasks.size() > MOST) {
      throw new Refusal("tasks", "Tasks must be at most " + MOST + ".");
    }
    if (approvedBy == null || approvedBy.isBlank() || approvedBy.length() > 120) {
      throw new Refusal("approved-by", "Approved by must be said, in at most 120 characters.");
    }
    if (revises != null && (reason == null || reason.isBlank())) {
      throw new Refusal("reason", "Reason is needed: say why the list changes.");
    }
  }

  private static Listed listed(TaskList row) {
    return new Listed(
        row.id(),
        parse(row.tasks),
        row.approvedBy,
        row.reason(),
        row.happenedOn(),
        row.recordedBy());
  }

  private static String json(List<Task> tasks) {
    ArrayNode all = JsonNodeFactory.instance.arrayNode();
    for (Task task : tasks) {
      all.addObject()
          .put("group", task.area().word())
          .put("title", task.title())
          .put("data", task.data())
          .put("independent", task.independent());
    }
    return CanonicalJson.of(all);
  }

  private static List<Task> parse(String json) {
    List<Task> tasks = new ArrayList<>();
    for (JsonNode task : CanonicalJson.parse(json)) {
      tasks.add(
          new Task(
              Area.parse(task.get("group").asText()),
              task.get("title").asText(),
              task.get("data").asText(),
              task.get("independent").asBoolean()));
    }
    return tasks;
  }
}
