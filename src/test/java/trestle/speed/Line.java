package trestle.speed;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * A connection that asks for one page again and again and reads each answer to its end. It does
 * next to nothing itself: a load that shares the processor with the program must not need it.
 */
final class Line implements AutoCloseable {
  private final Socket socket;
  private final OutputStream out;
  private final InputStream in;
  private final byte[] request;
  private final byte[] buffer = new byte[1 << 16];

  Line(URI page, String cookies) throws IOException {
    socket = new Socket(page.getHost(), page.getPort());
    socket.setTcpNoDelay(true);
    out = socket.getOutputStream();
    in = new BufferedInputStream(socket.getInputStream(), 1 << 16);
    request =
        ("GET %s HTTP/1.1\r\nHost: %s\r\nAccept-Encoding: gzip\r\nCookie: %s\r\n\r\n"
                .formatted(page.getRawPath(), page.getRawAuthority(), cookies))
            .getBytes(StandardCharsets.ISO_8859_1);
  }

  /** Asks once; the status, when the whole page is here. */
  int ask() throws IOException {
    out.write(request);
    int status = Integer.parseInt(readLine().split(" ")[1]);
    long length = -1;
    boolean chunked = false;
    for (String header = readLine(); !header.isEmpty(); header = readLine()) {
      String lower = header.toLowerCase(Locale.ROOT);
      if (lower.startsWith("content-length:")) {
        length = Long.parseLong(lower.substring(15).trim());
      } else if (lower.startsWith("transfer-encoding:")) {
        chunked = lower.contains("chunked");
      }
    }
    if (chunked) {
      readChunks();
    } else if (length >= 0) {
      skip(length);
    } else {
      throw new IOException("An answer without an end");
    }
    return status;
  }

  private void readChunks() throws IOException {
    long size = -1;
    while (size != 0) {
      size = Long.parseLong(readLine(), 16);
      skip(size);
      readLine();
    }
  }

  private void skip(long bytes) throws IOException {
    for (long left = bytes; left > 0; ) {
      int read = in.read(buffer, 0, (int) Math.min(buffer.length, left));
      if (read < 0) {
        throw new IOException("An answer cut short");
      }
      left -= read;
    }
  }

  private String readLine() throws IOException {
    StringBuilder line = new StringBuilder();
    for (int c = in.read(); c != '\n'; c = in.read()) {
      if (c < 0) {
        throw new IOException("The connection was closed");
      }
      if (c != '\r') {
        line.append((char) c);
      }
    }
    return line.toString();
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
