package trestle.directives;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads serial numbers as people write them; says which piece it can't read. */
final class SerialReader {
  private static final int MOST = 4_000;
  private static final Pattern TOKEN =
      Pattern.compile("[“\"”]([^“”\"]*)[“\"”]|;|,|[–—]|[^\\s,;–—“”\"]+");
  private static final Pattern BARE = Pattern.compile("[A-Z0-9][A-Z0-9./-]*");
  private static final Pattern BARE_PREFIX = Pattern.compile("[A-Z][A-Z0-9./-]*");
  private static final Pattern THOUSANDS = Pattern.compile("(?<![\\d])\\d{1,3}(,\\d{3})+(?!\\d)");

  private static final Set<String> NOISE =
      Set.of("serial", "serials", "number", "numbers", "no", "nos", "s/n", "sn", "the", "numbered");
  private static final Set<String> ALL = Set.of("all", "any", "every");
  private static final Set<String> EXCEPT = Set.of("except", "excepting", "excluding", "without");
  private static final Set<String> THROUGH = Set.of("through", "thru", "to", "-", "–", "—");
  private static final Set<String> UP =
      Set.of("up", "on", "onward", "onwards", "above", "after", "later", "subsequent", "higher");
  private static final Set<String> DOWN =
      Set.of("down", "below", "before", "earlier", "prior", "lower");
  private static final Set<String> AND = Set.of("and", "or", "plus", "&");

  private record Token(String text, boolean quoted) {

    boolean is(Set<String> words) {
      return !quoted && words.contains(word());
    }

    boolean is(String word) {
      return !quoted && word().equals(word);
    }

    private String word() {
      String lower = text.toLowerCase(Locale.ROOT);
      return lower.length() > 1 && (lower.endsWith(".") || lower.endsWith(":"))
          ? lower.substring(0, lower.length() - 1)
          : lower;
    }
  }

  private static final Token END = new Token("", true);

  private final List<Token> tokens = new ArrayList<>();
  private int at;

  SerialReader(String written) {
    if (written == null || written.isBlank()) {
      throw new IllegalArgumentException("must name at least one serial number, or say all");
    }
    if (written.length() > MOST) {
      throw new IllegalArgumentException("must be at most 4,000 characters");
    }
    Matcher thousands = THOUSANDS.matcher(written);
    if (thousands.find()) {
      throw unread(
          thousands.group(),
          "it may be one number or several: write it without the comma, or a blank after it");
    }
    Matcher found = TOKEN.matcher(written);
    int end = 0;
    while (found.find()) {
      refuseBetween(written.substring(end, found.start()));
      tokens.add(
          found.group(1) == null
              ? new Token(found.group(), false)
              : new Token(found.group(1), true));
      end = found.end();
    }
    refuseBetween(written.substring(end));
  }

  /** Only a quotation mark that is alone is matched by nothing. */
  private static void refuseBetween(String text) {
    if (!text.isBlank()) {
      throw unread(text.strip(), "the quotation mark has no other");
    }
  }

  Serials serials() {
    List<Serials.Group> groups = new ArrayList<>();
    groups.add(group());
    while (peek().is(";")) {
      at++;
      if (at < tokens.size()) {
        groups.add(group());
      }
    }
    if (at < tokens.size()) {
      throw unread(peek().text(), "put a comma, “and” or a semicolon before it");
    }
    return new Serials(groups);
  }

  private Serials.Group group() {
    List<Piece> named = list();
    if (!skipExcept()) {
      return new Serials.Group(named, List.of());
    }
    int from = at;
    List<Piece> except = list();
    for (Piece piece : except) {
      if (piece instanceof Piece.All || named.stream().noneMatch(piece::meets)) {
        throw unread(
            piece instanceof Piece.All ? written(from) : piece.words(),
            "after “except” it leaves out nothing that stands before; begin another group with a"
                + " semicolon");
      }
    }
    return new Serials.Group(named, except);
  }

  private List<Piece> list() {
    List<Piece> pieces = new ArrayList<>();
    pieces.add(piece());
    while (peek().is(",") || peek().is(AND)) {
      while (peek().is(",") || peek().is(AND)) {
        at++;
      }
      if (isExcept()) {
        break;
      }
      pieces.add(piece());
    }
    return pieces;
  }

  private Piece piece() {
    while (peek().is(NOISE)) {
      at++;
    }
    Piece piece = bare();
    while (peek().is("inclusive") || peek().is("included") || peek().is(NOISE)) {
      at++;
    }
    return piece;
  }

  private Piece bare() {
    int start = at;
    Token first = peek();
    if (first.is(ALL)) {
      at++;
      return new Piece.All();
    }
    if (first.is("prefix") || first.is("prefixed")) {
      at++;
      return prefixed(start);
    }
    if (first.is("up") || first.is("until")) {
      at++;
      if (peek().is("to")) {
        at++;
      }
      if (peek().is("and") && peek(1).is("including")) {
        at += 2;
      }
      SerialNumber end = numbered();
      return new Piece.Run(end.before(), null, end.digits(), end.after());
    }
    if (first.is("from")) {
      at++;
      SerialNumber from = numbered();
      return peek().is(THROUGH) || isOpenUp() ? rest(start, from) : openUp(from);
    }
    if (first.is("between")) {
      at++;
      SerialNumber from = numbered();
      if (!peek().is("and")) {
        throw unread(written(start), "“between” needs two serial numbers with “and”");
      }
      at++;
      return run(start, from, serial());
    }
    return rest(start, serial());
  }

  private Piece prefixed(int start) {
    Token prefix = peek();
    if (prefix == END || prefix.is(",") || prefix.is(";") || prefix.text().isBlank()) {
      throw unread(written(start), "say which letters after “prefix”");
    }
    at++;
    String letters = SerialNumber.plain(prefix.text());
    if (!peek().quoted() && peek().text().matches("[0-9]+")) {
      if (SerialNumber.isDigit(letters.charAt(letters.length() - 1))) {
        at++;
        throw unread(written(start), "put the mark that stands between into the prefix");
      }
      String digits = peek().text();
      at++;
      return rest(start, new SerialNumber(letters, digits, ""));
    }
    return new Piece.Beginning(letters);
  }

  /** What may follow a serial number: another end, or "and up". */
  private Piece rest(int start, SerialNumber from) {
    if (peek().is(THROUGH)) {
      at++;
      return run(start, from, serial());
    }
    if (isOpenUp()) {
      at += peek().is("and") || peek().is("or") ? 2 : 1;
      return openUp(numbered(from));
    }
    boolean and = peek().is("and") || peek().is("or");
    if (and && peek(1).is(DOWN) || peek().is(DOWN)) {
      at += and ? 2 : 1;
      SerialNumber to = numbered(from);
      return new Piece.Run(to.before(), null, to.digits(), to.after());
    }
    return new Piece.One(from);
  }

  /** "and up", "onwards"; but in "1001 and up to 1003" something else begins. */
  private boolean isOpenUp() {
    boolean and = peek().is("and") || peek().is("or");
    Token word = and ? peek(1) : peek();
    return word.is(UP) && !(word.is("up") && peek(and ? 2 : 1).is("to"));
  }

  private static Piece openUp(SerialNumber from) {
    return new Piece.Run(from.before(), from.digits(), null, from.after());
  }

  private Piece run(int start, SerialNumber from, SerialNumber to) {
    String before = to.before().isEmpty() ? from.before() : to.before();
    if (from.digits().isEmpty() || to.digits().isEmpty()) {
      throw unread(written(start), "both ends need a number");
    }
    if (!before.equals(from.before()) || !to.after().equals(from.after())) {
      throw unread(written(start), "both ends must have the same letters before and after");
    }
    if (SerialNumber.compare(from.digits(), to.digits()) > 0) {
      throw unread(written(start), "it runs backwards");
    }
    return new Piece.Run(before, from.digits(), to.digits(), from.after());
  }

  private SerialNumber numbered() {
    return numbered(serial());
  }

  private SerialNumber numbered(SerialNumber serial) {
    if (serial.digits().isEmpty()) {
      throw unread(serial.text(), "it needs a number to count from");
    }
    return serial;
  }

  private SerialNumber serial() {
    while (peek().is(NOISE)) {
      at++;
    }
    Token token = peek();
    if (token == END) {
      throw at == 0
          ? new IllegalArgumentException("must name at least one serial number, or say all")
          : unread(tokens.get(at - 1).text(), "a serial number is missing after it");
    }
    if (token.quoted()) {
      if (token.text().isBlank()) {
        throw unread("“”", "there is nothing between the quotation marks");
      }
      at++;
      return SerialNumber.of(token.text());
    }
    String text = token.text().toUpperCase(Locale.ROOT).replaceAll("\\.+$", "");
    if (!BARE.matcher(text).matches() || text.chars().noneMatch(c -> c >= '0' && c <= '9')) {
      throw unread(token.text(), hint(token));
    }
    if (mayBeARun(text)) {
      throw unread(
          token.text(),
          "it may be one serial number or a run: write “through” for a run, or put one number in"
              + " quotation marks");
    }
    at++;
    return SerialNumber.of(text);
  }

  private String hint(Token token) {
    return token.text().matches("[A-Za-z]+") && peek(1).text().matches("[0-9]+")
        ? "for letters before a number write “prefix " + token.text() + " " + peek(1).text() + "”"
        : "write serial numbers such as 1001, K200 through K350, or 4001 and up";
  }

  /** Whether a hyphen parts it into two numbers that have the same letters before them. */
  private static boolean mayBeARun(String text) {
    for (int hyphen = text.indexOf('-'); hyphen >= 0; hyphen = text.indexOf('-', hyphen + 1)) {
      SerialNumber left = SerialNumber.of(text.substring(0, hyphen));
      SerialNumber right = SerialNumber.of(text.substring(hyphen + 1));
      if (!left.digits().isEmpty()
          && !right.digits().isEmpty()
          && left.before().equals(right.before())) {
        return true;
      }
    }
    return false;
  }

  private boolean isExcept() {
    return peek().is(EXCEPT)
        || peek().is("but") && peek(1).is("not")
        || peek().is("other") && peek(1).is("than");
  }

  private boolean skipExcept() {
    if (!isExcept()) {
      return false;
    }
    at += peek().is(EXCEPT) ? 1 : 2;
    if (peek().is("for") || peek().is(":")) {
      at++;
    }
    return true;
  }

  private Token peek() {
    return peek(0);
  }

  private Token peek(int ahead) {
    return at + ahead < tokens.size() ? tokens.get(at + ahead) : END;
  }

  private String written(int start) {
    StringBuilder text = new StringBuilder();
    for (Token token : tokens.subList(start, Math.min(at, tokens.size()))) {
      text.append(text.isEmpty() || token.text().equals(",") ? "" : " ").append(token.text());
    }
    return text.toString();
  }

  private static IllegalArgumentException unread(String piece, String why) {
    return new IllegalArgumentException("can’t be read at “" + piece + "”: " + why);
  }

  /** A serial number as this reader reads it back: in quotation marks where it must be. */
  static String written(String serial) {
    boolean bare =
        BARE.matcher(serial).matches()
            && serial.chars().anyMatch(c -> c >= '0' && c <= '9')
            && !serial.endsWith(".")
            && !mayBeARun(serial);
    return bare ? serial : "“" + serial + "”";
  }

  static String writtenPrefix(String prefix) {
    boolean bare = BARE_PREFIX.matcher(prefix).matches() && !prefix.endsWith(".");
    return bare ? prefix : "“" + prefix + "”";
  }
}
