package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class CommandLineTest {

  @Test
  void withoutWordsItServes() {
    assertThat(CommandLine.parse(List.of()).serves()).isTrue();
    assertThat(CommandLine.parse(List.of("serve")).serves()).isTrue();
  }

  @Test
  void aCommandMayHaveTwoWordsAndArguments() {
    assertThat(CommandLine.parse(List.of("demo", "rebuild", "now")))
        .isEqualTo(new CommandLine("demo rebuild", List.of("now")));
  }

  @Test
  void helpNamesEveryCommand() {
    assertThat(CommandLine.parse(List.of("--help")).command()).isEqualTo("help");
    assertThat(CommandLine.help()).contains(CommandLine.COMMANDS.keySet());
  }

  @Test
  void anUnknownCommandIsRefusedWithTheListOfThose() {
    assertThatThrownBy(() -> CommandLine.parse(List.of("demo")))
        .isInstanceOfSatisfying(
            StartRefused.class, refused -> assertThat(refused.exitCode()).isEqualTo(2))
        .hasMessage(
            "There is no command \"demo\". Commands: serve, demo rebuild, rehearse, backup, restore, verify, check, password, version, help.");
  }
}
