package trestle.web;

/** What can be the matter with the database itself, in words for whoever waits for a page. */
enum Outage {
  GONE(
      "The database can't be reached just now",
      "Nothing that was filed is lost. Try again in a minute.",
      "It is not certain whether what you sent was filed. Send it again in a minute: it is filed"
          + " once, however often it is sent."),
  FULL(
      "The disk is full",
      "Pages can be read as soon as this one works again; tell whoever looks after this"
          + " installation.",
      "Nothing was filed, and nothing can be until there is room: tell whoever looks after this"
          + " installation, then send it again. Pages can be read meanwhile.");

  private final String title;
  private final String afterReading;
  private final String afterSending;

  Outage(String title, String afterReading, String afterSending) {
    this.title = title;
    this.afterReading = afterReading;
    this.afterSending = afterSending;
  }

  String title() {
    return title;
  }

  /**
   * @param sent whether something was sent, rather than a page asked for
   */
  String sentence(boolean sent) {
    return sent ? afterSending : afterReading;
  }
}
