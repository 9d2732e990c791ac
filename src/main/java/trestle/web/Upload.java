package trestle.web;

import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jboss.resteasy.reactive.server.core.CurrentRequestManager;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;
import org.jboss.resteasy.reactive.server.multipart.FormValue;

/**
 * What a page with file fields sent: its fields as any form's, and its files. A page method takes
 * it with {@link #ofRequest()}, names both media types in {@code @Consumes} (a form that comes back
 * after signing in comes without its files), and has no parameter for the body.
 */
public final class Upload {
  /** The most that such a page may carry in all; its photos have a limit of their own. */
  public static final int MOST_BYTES = 45 << 20;

  private final MultivaluedMap<String, String> fields = new MultivaluedHashMap<>();
  private final Map<String, List<File>> files = new TreeMap<>();

  private Upload() {}

  /** A file as sent; its name is only what its sender calls it. */
  public static final class File {
    private final FormValue sent;

    private File(FormValue sent) {
      this.sent = sent;
    }

    public String name() {
      String name = sent.getFileName() == null ? "" : sent.getFileName();
      String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
      return last.length() > 60 ? last.substring(0, 60) + "…" : last;
    }

    public long size() {
      try {
        return sent.getFileItem().getFileSize();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    /** For what is too large to be held in memory. */
    public InputStream open() {
      try {
        return sent.getFileItem().getInputStream();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    public byte[] bytes() {
      try (InputStream in = sent.getFileItem().getInputStream()) {
        return in.readAllBytes();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** What the request that is being answered carries; the check of its token has read it. */
  public static Upload ofRequest() {
    Upload upload = new Upload();
    FormData sent = CurrentRequestManager.get().getFormData();
    if (sent != null) {
      for (String name : sent) {
        upload.take(name, sent.get(name));
      }
    }
    return upload;
  }

  /** The fields, for {@link Form#of}. */
  public MultivaluedMap<String, String> fields() {
    return fields;
  }

  /** The files of a field; a field left empty has none. */
  public List<File> files(String field) {
    return files.getOrDefault(field, List.of());
  }

  private void take(String name, Deque<FormValue> values) {
    for (FormValue value : values) {
      if (!value.isFileItem()) {
        fields.add(name, value.getValue());
      } else if (value.getFileName() != null && !value.getFileName().isEmpty()) {
        files.computeIfAbsent(name, any -> new ArrayList<>()).add(new File(value));
      }
    }
  }
}
