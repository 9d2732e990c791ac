package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.web.Viewer;
import trestle.workshop.Area;
import trestle.workshop.TaskLists;

/** What the inspections of the example programmes look at. */
@ApplicationScoped
class TaskLoad {
  @Inject TaskLists lists;

  void file(Viewer viewer, ProgrammeLoad.Filed programme) {
    byRequirement(programme)
        .forEach(
            (requirement, tasks) ->
                lists.revise(
                    viewer, requirement, null, tasks, ProgrammeLoad.APPROVED_BY, null, null));
  }

  /** Aircraft of a type share their programme's requirement: it gets its list once. */
  private static Map<UUID, List<TaskLists.Task>> byRequirement(ProgrammeLoad.Filed programme) {
    Map<UUID, List<TaskLists.Task>> lists = new LinkedHashMap<>();
    programme
        .requirements()
        .forEach(
            (name, id) -> {
              List<TaskLists.Task> tasks = tasks(name.split(" ")[0], name.split(" ", 2)[1]);
              if (!tasks.isEmpty()) {
                lists.put(id, tasks);
              }
            });
    return lists;
  }

  private static List<TaskLists.Task> tasks(String registration, String code) {
    List<TaskLists.Task> tasks = new ArrayList<>();
    for (SeedFile.Line line : SeedFile.lines("tasks.csv")) {
      String belongsTo = line.text("belongs_to");
      boolean theirs = belongsTo.equals("*") || belongsTo.equals(registration);
      if (theirs && Arrays.asList(line.text("codes").split(" ")).contains(code)) {
        tasks.add(
            new TaskLists.Task(
                Area.named(line.text("group")),
                line.text("task"),
                line.text("data"),
                line.yes("second_person")));
      }
    }
    return tasks;
  }
}
