package trestle.server;

import java.io.PrintStream;
import java.util.List;

/**
 * What a room offers on the command line. A bean of this type is found by the name that {@link
 * CommandLine} knows, and runs on the started application, without its web server.
 */
public interface Command {
  /** The words after the program's name, as in {@link CommandLine#COMMANDS}: "demo rebuild". */
  String name();

  /**
   * @param arguments what follows the command's words
   * @return the exit code: 0 when all went well
   */
  int run(List<String> arguments, PrintStream out);
}
