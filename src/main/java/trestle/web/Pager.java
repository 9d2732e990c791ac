package trestle.web;

import jakarta.ws.rs.core.UriInfo;

/**
 * One page of a long list, counted from 1.
 *
 * @param size rows to a page
 * @param rows rows in all
 */
public record Pager(int page, int size, long rows, UriInfo uri) {

  /** The page that was asked for, moved into the list when it lies outside. */
  public static Pager of(Integer asked, int size, long rows, UriInfo uri) {
    int last = (int) Math.max(1, (rows + size - 1) / size);
    int page = asked == null ? 1 : Math.min(Math.max(asked, 1), last);
    return new Pager(page, size, rows, uri);
  }

  public int pages() {
    return (int) Math.max(1, (rows + size - 1) / size);
  }

  public int offset() {
    return (page - 1) * size;
  }

  public boolean isMany() {
    return pages() > 1;
  }

  public boolean isFirst() {
    return page == 1;
  }

  public boolean isLast() {
    return page == pages();
  }

  /** "51 to 100 of 230". */
  public String words() {
    long end = Math.min((long) page * size, rows);
    return String.format(
        "%s to %s of %s", Shown.count(offset() + 1), Shown.count(end), Shown.count(rows));
  }

  public String earlier() {
    return at(page - 1);
  }

  public String later() {
    return at(page + 1);
  }

  private String at(int other) {
    var there = uri.getRequestUriBuilder().replaceQueryParam("page", other).build();
    return there.getRawPath() + "?" + there.getRawQuery();
  }
}
