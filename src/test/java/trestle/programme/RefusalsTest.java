package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** What the stateless check refuses: all of it at once, each with a pointer to the place. */
class RefusalsTest {

  /** A case with one part put in another's place, and the fields that must be named. */
  record Case(String name, String body, List<String> fields) {}

  private static final String RULE = "{\"limits\":[{\"counter\":\"hours\",\"every\":\"100\"}]}";

  private static Case of(String name, String body, String... fields) {
    return new Case(name, body.replace('\'', '"'), Arrays.asList(fields));
  }

  /** The limit alone in a rule that has all that it could need. */
  private static Case limit(String name, String limit, String... fields) {
    return rule(name, "{'limits':[" + limit + "]}", at("/rule/limits/0", fields));
  }

  private static Case rule(String name, String rule, String... fields) {
    return of(
        name,
        "{'asOf':'2026-03-31','usage':{'hours':'1000','landings':'100'},'rule':"
            + rule
            + ",'baseline':{'on':'2026-01-01','usage':{'hours':'900','landings':'90'}},"
            + "'origins':{'new':{'on':'2020-01-01','usage':{'hours':'0','landings':'0'}}}}",
        fields);
  }

  private static String[] at(String where, String... fields) {
    return Arrays.stream(fields).map(field -> where + field).toArray(String[]::new);
  }

  private static Case rows(String name, String rest, String... fields) {
    return of(name, "{'asOf':'2026-03-31','rule':" + RULE + "," + rest + "}", fields);
  }

  private static Case every(String name, String every, String... fields) {
    return limit(name, "{'counter':'hours','every':" + every + "}", fields);
  }

  private static Case period(String name, String every, String... fields) {
    return limit(name, "{'calendar':true,'every':" + every + "}", fields);
  }

  private static final String NOW = "'usage':{'hours':'1000'}";

  private static final List<Case> WHOLE =
      List.of(
          of("a number", "5", ""),
          of("a string", "'case'", ""),
          of("null", "null", ""),
          of("an empty object", "{}", "/asOf", "/rule"),
          of("a list with something else", "[5,{}]", "/0", "/1/asOf", "/1/rule"),
          of(
              "one bad case of two",
              "[{'asOf':'2026-03-31','usage':{'hours':'1'},'rule':{'limits':[{'counter':'hours','at':'5'}]}},"
                  + "{'asOf':'x','usage':{'hours':'1'},'rule':{'limits':[{'counter':'hours','at':'5'}]}}]",
              "/1/asOf"),
          rows(
              "an unknown member",
              NOW + ",'baseline':{'usage':{'hours':'1'}},'a/b~c':1",
              "/a~1b~0c"),
          rows(
              "a repeated member",
              NOW + "," + NOW + ",'baseline':{'usage':{'hours':'1'}}",
              "/usage"),
          rows(
              "null members",
              "'usage':null,'baseline':null,'history':null,'origins':null," + "'utilisation':null",
              "/usage",
              "/baseline",
              "/history",
              "/origins",
              "/utilisation"),
          rows(
              "everything of the wrong type",
              "'usage':[],'baseline':'x','history':{},'origins':5," + "'utilisation':true",
              "/usage",
              "/baseline",
              "/history",
              "/origins",
              "/utilisation"));

  @TestFactory
  Stream<DynamicTest> wholes() {
    return check(WHOLE);
  }

  private static final List<Case> RULES =
      List.of(
          rule("no rule but a list", "[]", "/rule"),
          rule("without limits", "{}", "/rule/limits"),
          rule("no limits", "{'limits':[]}", "/rule/limits"),
          rule("limits of another type", "{'limits':{}}", "/rule/limits"),
          rule("null for a rule", "null", "/rule"),
          rule("null for a limit", "{'limits':[null]}", "/rule/limits/0"),
          rule(
              "an unknown member",
              "{'limits':[{'counter':'hours','every':'1'}],'every':'1'}",
              "/rule/every"),
          rule(
              "a repeated member",
              "{'limits':[{'counter':'hours','every':'1'}],'once':true,'once':true}",
              "/rule/once"),
          rule(
              "an unknown word",
              "{'combine':'both','limits':[{'counter':'hours','every':'1'}]}",
              "/rule/combine"),
          rule(
              "a word in capitals",
              "{'combine':'First','limits':[{'counter':'hours','every':'1'}]}",
              "/rule/combine"),
          rule(
              "once that is no flag",
              "{'limits':[{'counter':'hours','every':'1'}],'once':'true'}",
              "/rule/once"),
          rule(
              "initial that is a list",
              "{'limits':[{'counter':'hours','every':'1'}],'initial':[]}",
              "/rule/initial"),
          rule(
              "initial with its own initial",
              "{'limits':[{'counter':'hours','every':'1'}],'initial':{'limits':[{'counter':'hours','every':'1'}],'once':true}}",
              "/rule/initial/once"),
          rule(
              "once in a group",
              "{'limits':[{'once':true,'limits':[{'counter':'hours','every':'1'}]}]}",
              "/rule/limits/0/once"),
          rule(
              "a group that is also a limit",
              "{'limits':[{'counter':'hours','limits':[{'counter':'hours','every':'1'}]}]}",
              "/rule/limits/0/counter"),
          rule("an empty inner group", "{'limits':[{'limits':[]}]}", "/rule/limits/0/limits"),
          rule("nine levels", nested(9), "/rule" + "/limits/0".repeat(8)),
          rule("sixty-five limits", many(65), "/rule/limits"),
          rule(
              "sixty-five with those of initial",
              "{'limits':[{'counter':'hours','every':'1'}],'initial':" + many(64) + "}",
              "/rule/limits"),
          rule(
              "other work is not for here",
              "{'limits':[{'with':'annual'}]}",
              "/rule/limits/0/with",
              "/rule/limits/0/counter",
              "/rule/limits/0/every"));

  private static String nested(int levels) {
    return "{'limits':[".repeat(levels) + "{'counter':'hours','every':'1'}" + "]}".repeat(levels);
  }

  private static String many(int limits) {
    return "{'limits':["
        + "{'counter':'hours','every':'1'},".repeat(limits - 1)
        + "{'counter':'hours','every':'1'}]}";
  }

  @TestFactory
  Stream<DynamicTest> rules() {
    return check(RULES);
  }

  private static final List<Case> LIMITS =
      List.of(
          limit("neither", "{'every':'100'}", "/counter"),
          limit("both", "{'counter':'hours','calendar':true,'every':'100'}", "/calendar"),
          limit("calendar false", "{'calendar':false,'every':'P1M'}", "/calendar"),
          limit("calendar as a string", "{'calendar':'true','every':'P1M'}", "/calendar"),
          limit("a counter's name", "{'counter':'Hours','every':'100'}", "/counter"),
          limit("a counter that is a number", "{'counter':5,'every':'100'}", "/counter"),
          limit("nothing to count", "{'counter':'hours'}", "/every"),
          limit("every and at", "{'counter':'hours','every':'100','at':'1000'}", "/at"),
          limit("every and on", "{'calendar':true,'every':'P1M','on':'2026-01-01'}", "/on"),
          limit("on by use", "{'counter':'hours','on':'2026-01-01'}", "/on", "/every"),
          limit("at by calendar", "{'calendar':true,'at':'100'}", "/at"),
          limit("ends by use", "{'counter':'hours','every':'100','ends':'month-end'}", "/ends"),
          limit(
              "ends on a fixed date",
              "{'calendar':true,'on':'2026-06-01','ends':'month-end'}",
              "/ends"),
          limit(
              "from, late, window at a fixed point",
              "{'counter':'hours','at':'1','from':'last-done','late':'restart','window':'1'}",
              "/from",
              "/late",
              "/window"),
          limit(
              "late and window from an origin",
              "{'counter':'hours','every':'100','from':'new','late':'restart','window':'1'}",
              "/late",
              "/window"),
          limit(
              "an unknown origin", "{'counter':'hours','every':'100','from':'overhaul'}", "/from"),
          limit("an origin in capitals", "{'counter':'hours','every':'100','from':'New'}", "/from"),
          limit("an unknown late", "{'counter':'hours','every':'100','late':'keep'}", "/late"),
          limit("an unknown end", "{'calendar':true,'every':'P1M','ends':'month'}", "/ends"),
          limit(
              "month-end with days",
              "{'calendar':true,'every':'P1M1D','ends':'month-end'}",
              "/ends"),
          limit(
              "month-end with weeks",
              "{'calendar':true,'every':'P4W','ends':'month-end'}",
              "/ends"),
          limit(
              "a window as large as every",
              "{'counter':'hours','every':'100','window':'100'}",
              "/window"),
          limit(
              "a window of a month's thirty days",
              "{'calendar':true,'every':'P1M','window':'P30D'}",
              "/window"),
          limit(
              "a window of twelve months",
              "{'calendar':true,'every':'P1Y','window':'P12M'}",
              "/window"),
          limit("a period for an amount", "{'counter':'hours','every':'P1M'}", "/every"),
          limit("an amount for a period", "{'calendar':true,'every':'100'}", "/every"),
          limit(
              "everything at once",
              "{'counter':'hours','every':'0','soon':10,'tolerance':'-1','late':null,'window':'1.234','x':1}",
              "/x",
              "/late",
              "/every",
              "/soon",
              "/tolerance",
              "/window"));

  @TestFactory
  Stream<DynamicTest> limits() {
    return check(LIMITS);
  }

  private static final List<Case> AMOUNTS =
      List.of(
          every("a number", "100", "/every"),
          every("nothing", "'0'", "/every"),
          every("nothing, h:mm", "'0:00:00'", "/every"),
          every("negative", "'-1'", "/every"),
          every("an exponent", "'1e3'", "/every"),
          every("blanks", "' 1'", "/every"),
          every("a thousands mark", "'1,000'", "/every"),
          every("three decimals", "'1.000'", "/every"),
          every("other digits", "'\u0661\u0660'", "/every"),
          every("sixty minutes", "'1:60'", "/every"),
          every("too much", "'10000000.01'", "/every"),
          every("nine digits", "'100000000'", "/every"),
          every("a new line", "'1\\n'", "/every"),
          limit("a count with a point", "{'counter':'landings','every':'1.0'}", "/every"),
          limit("a count with a colon", "{'counter':'landings','every':'1:00'}", "/every"),
          limit("too great a count", "{'counter':'landings','every':'10000001'}", "/every"),
          period("no parts", "'P'", "/every"),
          period("nothing", "'P0D'", "/every"),
          period("a sign", "'-P1M'", "/every"),
          period("a sign inside", "'P-1M'", "/every"),
          period("lower case", "'p1m'", "/every"),
          period("hours", "'PT10H'", "/every"),
          period("more than 200 years", "'P201Y'", "/every"),
          period("more than 200 years, in days", "'P73049D'", "/every"),
          period("more than any number", "'P99999999999999999999D'", "/every"),
          limit("no day of that month", "{'calendar':true,'on':'2026-02-29'}", "/on"),
          limit("before 1900", "{'calendar':true,'on':'1899-12-31'}", "/on"),
          limit("after 2200", "{'calendar':true,'on':'2201-01-01'}", "/on"),
          limit("a date with a time", "{'calendar':true,'on':'2026-01-01T00:00'}", "/on"),
          limit("a short date", "{'calendar':true,'on':'2026-1-1'}", "/on"));

  @TestFactory
  Stream<DynamicTest> amounts() {
    return check(AMOUNTS);
  }

  private static final List<Case> ROWS =
      List.of(
          rows("no baseline and no doing", NOW, "/baseline"),
          rows("no usage", "'baseline':{'usage':{'hours':'1'}}", "/usage/hours"),
          rows(
              "usage of another counter",
              "'usage':{'landings':'1'},'baseline':{'usage':{'hours':'1'}}",
              "/usage/hours"),
          rows(
              "a baseline without the counter",
              NOW + ",'baseline':{'on':'2026-01-01'}",
              "/baseline/usage/hours"),
          rows(
              "a row without the counter",
              NOW
                  + ",'baseline':{'usage':{'hours':'1'}},'history':[{'usage':{}},{'usage':{'hours':'5'}}]",
              "/history/0/usage/hours"),
          rows(
              "a counter's name in usage",
              "'usage':{'hours':'1000','Hours':'1'},'baseline':{'usage':{'hours':'1'}}",
              "/usage/Hours"),
          rows(
              "a counter's name in utilisation",
              NOW + ",'baseline':{'usage':{'hours':'1'}},'utilisation':{'a_b':'1'}",
              "/utilisation/a_b"),
          rows(
              "rates that are none",
              NOW
                  + ",'baseline':{'usage':{'hours':'1'}},'utilisation':{'hours':'0.12345','landings':'1:30','cycles':1,'starts':'-1'}",
              "/utilisation/hours",
              "/utilisation/landings",
              "/utilisation/cycles",
              "/utilisation/starts"),
          rows(
              "an origin's name",
              NOW + ",'baseline':{'usage':{'hours':'1'}},'origins':{'last-done':{}}",
              "/origins/last-done"),
          rows(
              "an unknown member of a row",
              NOW + ",'baseline':{'date':'2026-01-01','usage':{'hours':'1'}}",
              "/baseline/date"),
          rows(
              "rows out of order",
              NOW
                  + ",'baseline':{'on':'2026-01-02','usage':{'hours':'1'}},'history':[{'on':'2026-01-01','usage':{'hours':'2'}}]",
              "/history/0/on"),
          rows(
              "rows out of order over one without a date",
              NOW
                  + ",'baseline':{'on':'2026-01-02','usage':{'hours':'1'}},'history':[{'usage':{'hours':'2'}},{'on':'2026-01-01','usage':{'hours':'3'}}]",
              "/history/1/on"),
          rows(
              "a baseline after asOf",
              NOW + ",'baseline':{'on':'2026-04-01','usage':{'hours':'1'}}",
              "/baseline/on"),
          rows(
              "a row after asOf",
              NOW + ",'history':[{'on':'2026-04-01','usage':{'hours':'1'}}]",
              "/history/0/on"),
          rows(
              "a counter that falls",
              NOW
                  + ",'baseline':{'usage':{'hours':'500'}},'history':[{'usage':{'hours':'499.99'}}]",
              "/history/0/usage/hours"),
          rows(
              "a counter that falls to now",
              NOW + ",'baseline':{'usage':{'hours':'1000:00:01'}}",
              "/usage/hours"),
          rows(
              "another counter that falls",
              "'usage':{'hours':'1000','landings':'5'},'baseline':{'usage':{'hours':'1','landings':'6'}}",
              "/usage/landings"),
          of(
              "needed dates",
              "{'asOf':'2026-03-31','rule':{'limits':[{'calendar':true,'every':'P1M'}]},"
                  + "'baseline':{'usage':{'hours':'1'}},'history':[{}]}",
              "/baseline/on",
              "/history/0/on"),
          of(
              "what an origin needs",
              "{'asOf':'2026-03-31','usage':{'hours':'1'},'rule':{'limits':["
                  + "{'counter':'hours','every':'1','from':'new'},{'calendar':true,'every':'P1M','from':'new'}]},"
                  + "'origins':{'new':{}}}",
              "/origins/new/usage/hours",
              "/origins/new/on"),
          of(
              "a broken limit does not hide what is missing",
              "{'asOf':'2026-03-31','rule':{'limits':[{'counter':'hours','every':'0'}]}}",
              "/rule/limits/0/every",
              "/usage/hours",
              "/baseline"),
          of(
              "what initial needs, while never done",
              "{'asOf':'2026-03-31','rule':{'limits':[{'counter':'hours','every':'1'}],"
                  + "'initial':{'limits':[{'counter':'landings','at':'5'},{'calendar':true,'every':'P1M','from':'effective'}]}}}",
              "/usage/landings",
              "/rule/initial/limits/1/from"));

  @TestFactory
  Stream<DynamicTest> rows() {
    return check(ROWS);
  }

  private static Stream<DynamicTest> check(List<Case> table) {
    return table.stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.name,
                    () -> {
                      Asked asked = Asked.of(row.body);
                      assertThat(asked.status()).as(asked.answer().toString()).isEqualTo(400);
                      assertThat(asked.fields()).containsExactlyInAnyOrderElementsOf(row.fields);
                    }));
  }

  private static final List<Case> TAKEN =
      List.of(
          rule("eight levels", nested(8)),
          rule("sixty-four limits", many(64)),
          limit("the most there is", "{'counter':'hours','every':'10000000'}"),
          limit("the most of a count", "{'counter':'landings','at':'10000000'}"),
          limit("200 years", "{'calendar':true,'every':'P200Y'}"),
          limit("the first day", "{'calendar':true,'on':'1900-01-01'}"),
          limit("the last day", "{'calendar':true,'on':'2200-12-31'}"),
          limit(
              "amounts of nothing",
              "{'counter':'hours','every':'1','soon':'0','tolerance':'0','window':'0'}"),
          limit("last-done by name", "{'counter':'hours','every':'1','from':'last-done'}"),
          limit("the default end by name", "{'calendar':true,'every':'P90D','ends':'anniversary'}"),
          rows("no dates where none is needed", NOW + ",'baseline':{'usage':{'hours':'1'}}"),
          rows(
              "more counters than are needed",
              "'usage':{'hours':'1000','cycles':'3'},'baseline':{'usage':{'hours':'1'}}"),
          rows(
              "equal dates and equal totals",
              NOW
                  + ",'baseline':{'on':'2026-03-31','usage':{'hours':'1000'}},'history':[{'on':'2026-03-31','usage':{'hours':'1000'}}]"),
          rows(
              "an origin after today",
              NOW
                  + ",'baseline':{'usage':{'hours':'1'}},"
                  + "'origins':{'effective':{'on':'2027-01-01','usage':{'hours':'5000'}}}"),
          of(
              "what only initial needed, once it was done",
              "{'asOf':'2026-03-31','usage':{'hours':'10'},'rule':{'limits':[{'counter':'hours','every':'1'}],"
                  + "'initial':{'limits':[{'counter':'landings','every':'5','from':'effective'}]}},"
                  + "'history':[{'usage':{'hours':'5'}}]}"),
          of(
              "what nothing needs, once it is over",
              "{'asOf':'2026-03-31','rule':{'limits':[{'counter':'hours','every':'1','from':'x'}],'once':true},"
                  + "'history':[{}]}"));

  @TestFactory
  Stream<DynamicTest> taken() {
    return TAKEN.stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.name,
                    () -> {
                      Asked asked = Asked.of(row.body);
                      assertThat(asked.fields()).isEmpty();
                      assertThat(asked.status()).isEqualTo(200);
                    }));
  }

  private static final List<Case> MALFORMED =
      List.of(
          of("nothing", ""),
          of("blanks", " \n"),
          of("cut short", "{'asOf':"),
          of("trailing garbage", "[] x"),
          of("two texts", "[][]"),
          of("a trailing comma", "[{},]"),
          of("a comment", "[] // none"),
          of("a leading zero", "[01]"),
          of("not a number", "[NaN]"),
          of("a byte order mark", "\ufeff[]"),
          of("a control character", "['\u0001']"),
          of("a depth bomb", "[".repeat(100_000)),
          of("a depth bomb of objects", "{'a':".repeat(100_000)));

  @TestFactory
  Stream<DynamicTest> malformed() {
    return MALFORMED.stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.name,
                    () -> {
                      Asked asked = Asked.of(row.body);
                      assertThat(asked.status()).isEqualTo(400);
                      assertThat(asked.fields()).containsExactly("");
                    }));
  }

  @Test
  void otherEncodingsAreRefused() {
    for (byte[] body :
        List.of(
            "[]".getBytes(StandardCharsets.UTF_16),
            "[]".getBytes(StandardCharsets.UTF_16LE),
            new byte[] {'[', '"', (byte) 0xff, '"', ']'},
            new byte[] {'[', '"', (byte) 0xc0, (byte) 0x80, '"', ']'},
            new byte[] {'[', '"', (byte) 0xed, (byte) 0xa0, (byte) 0x80, '"', ']'})) {
      assertThat(Asked.of(body).status()).isEqualTo(400);
    }
  }

  @Test
  void theProblemHasItsShape() {
    JsonNode problem =
        Asked.of("{\"asOf\":\"2026-13-01\",\"rule\":" + RULE + ",\"usage\":{\"hours\":1e400}}")
            .answer();
    assertThat(problem.get("type").asText()).isEqualTo("about:blank");
    assertThat(problem.get("title").asText()).isEqualTo("Bad Request");
    assertThat(problem.get("status").asInt()).isEqualTo(400);
    assertThat(problem.get("detail").asText())
        .isEqualTo("3 things are wrong with the request; nothing was done.");
    assertThat(problem.get("errors").get(0))
        .isEqualTo(
            Asked.tree(
                "{\"field\":\"/asOf\",\"value\":\"2026-13-01\",\"reason\":\"is not a date that exists\"}"));
    assertThat(problem.get("errors").get(2))
        .as("a value that is missing is null")
        .isEqualTo(
            Asked.tree(
                "{\"field\":\"/baseline\",\"value\":null,\"reason\":\"is missing: a limit counts from"
                    + " last-done, and it was never done\"}"));
  }

  @Test
  void whatIsRepeatedInAProblemIsKeptShort() {
    String problem =
        Asked.of("{\"" + "n".repeat(10) + "\":\"" + "x".repeat(100_000) + "\"}")
            .answer()
            .toString();
    assertThat(problem).hasSizeLessThan(2_000);
  }

  @Test
  void halfASurrogateIsAnsweredInWellFormedJson() {
    assertThat(Asked.of("{\"\\ud800\":\"\\udfff\"}").fields())
        .containsExactlyInAnyOrder("/\ufffd", "/asOf", "/rule");
  }

  @Test
  void aThousandCasesAndNoMore() {
    String one =
        "{\"asOf\":\"2026-03-31\",\"usage\":{\"hours\":\"1\"},\"rule\":{\"limits\":[{\"counter\":\"hours\",\"at\":\"5\"}]}}";
    assertThat(Asked.of("[" + (one + ",").repeat(999) + one + "]").answer()).hasSize(1_000);
    Asked asked = Asked.of("[" + (one + ",").repeat(1_000) + one + "]");
    assertThat(asked.status()).isEqualTo(400);
    assertThat(asked.fields()).containsExactly("");
  }

  @Test
  void errorsAreManyButNotEndless() {
    String rows = "{},".repeat(30_000);
    StringBuilder limits = new StringBuilder();
    for (int i = 0; i < 64; i++) {
      limits
          .append(i == 0 ? "" : ",")
          .append("{\"counter\":\"c")
          .append(i)
          .append("\",\"every\":\"1\"}");
    }
    Asked asked =
        Asked.of(
            "{\"asOf\":\"2026-03-31\",\"rule\":{\"limits\":["
                + limits
                + "]},\"history\":["
                + rows.substring(0, rows.length() - 1)
                + "]}");
    assertThat(asked.status()).isEqualTo(400);
    assertThat(asked.fields()).hasSize(10_000);
  }
}
