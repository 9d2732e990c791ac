package trestle.server;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What was asked for after the program's name.
 *
 * @param command one of {@link #COMMANDS}
 * @param arguments what follows the command's words
 */
record CommandLine(String command, List<String> arguments) {

  static final String SERVE = "serve";
  static final String REHEARSE = "rehearse";
  static final String HELP = "help";
  static final String VERSION = "version";

  /** Every command and what it does, in the order that help shows. */
  static final Map<String, String> COMMANDS = commands();

  private static Map<String, String> commands() {
    Map<String, String> commands = new LinkedHashMap<>();
    commands.put(SERVE, "run the web application (also when no command is given)");
    commands.put(
        "demo rebuild", "load the demo operator anew, dated from today; the old one is set aside");
    commands.put(
        REHEARSE,
        "start, open the first pages, stop: with it the build finds out which classes a start needs");
    commands.put(
        BackupCommands.BACKUP, "write the installation, or one operator, into a file; see Backups");
    commands.put(BackupCommands.RESTORE, "check a backup and put it back; see Backups");
    commands.put(
        "verify",
        "compute every ledger anew from the records and name the first that disagrees; exit code 1 then");
    commands.put("check", "check one printed proof or signed head, given as text");
    commands.put(
        "password",
        "make another password for the sign-in name that follows; ends every session of theirs");
    commands.put(VERSION, "print the version");
    commands.put(HELP, "print this");
    return commands;
  }

  /** Reads the command, or refuses with the list of those that exist. */
  static CommandLine parse(List<String> words) {
    if (words.isEmpty()) {
      return new CommandLine(SERVE, List.of());
    }
    if (words.equals(List.of("--help")) || words.equals(List.of("-h"))) {
      return new CommandLine(HELP, List.of());
    }
    for (String command : COMMANDS.keySet()) {
      List<String> its = List.of(command.split(" "));
      if (words.size() >= its.size() && words.subList(0, its.size()).equals(its)) {
        return new CommandLine(command, List.copyOf(words.subList(its.size(), words.size())));
      }
    }
    throw new StartRefused(
        "There is no command \"%s\". Commands: %s."
            .formatted(String.join(" ", words), String.join(", ", COMMANDS.keySet())),
        StartRefused.USAGE);
  }

  static String help() {
    StringBuilder help = new StringBuilder("java -jar quarkus-run.jar [command]\n\n");
    COMMANDS.forEach((name, does) -> help.append("  %-14s %s%n".formatted(name, does)));
    return help.append("\nSettings: docs/operations.md").toString();
  }

  boolean serves() {
    return command.equals(SERVE) || rehearses();
  }

  boolean rehearses() {
    return command.equals(REHEARSE);
  }
}
