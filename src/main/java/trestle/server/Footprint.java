package trestle.server;

import com.sun.management.HotSpotDiagnosticMXBean;
import com.sun.management.VMOption;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.management.JMException;
import javax.management.ObjectName;

/**
 * Gives the memory back that only the start needed. The Java machine keeps what it once took from
 * the system, up to a quarter of the whole, unless it is told to let go of what lies idle.
 */
final class Footprint {
  /** Settings that may be changed while running; what somebody gave on the command line stays. */
  private static final Map<String, String> SETTINGS = new LinkedHashMap<>();

  static {
    SETTINGS.put("MinHeapFreeRatio", "20");
    SETTINGS.put("MaxHeapFreeRatio", "40");
    SETTINGS.put("G1PeriodicGCInterval", "60000");
  }

  /** By then the first pages are out, which would have waited for the processor. */
  private static final Duration AFTER = Duration.ofSeconds(20);

  /** On a thread of its own: nobody waits for it. */
  static void settle() {
    Thread thread = new Thread(Footprint::letGo, "footprint");
    thread.setDaemon(true);
    thread.start();
  }

  private static void letGo() {
    try {
      Thread.sleep(AFTER.toMillis());
      SETTINGS.forEach(Footprint::set);
      System.gc();
      // What the compilers of the machine code had taken, which the C library keeps.
      ManagementFactory.getPlatformMBeanServer()
          .invoke(
              new ObjectName("com.sun.management:type=DiagnosticCommand"),
              "systemTrimNativeHeap",
              new Object[0],
              new String[0]);
    } catch (JMException | IllegalArgumentException e) {
      // Another kind of Java machine manages its memory in its own way.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void set(String name, String value) {
    HotSpotDiagnosticMXBean machine =
        ManagementFactory.getPlatformMXBean(HotSpotDiagnosticMXBean.class);
    if (machine.getVMOption(name).getOrigin() == VMOption.Origin.DEFAULT) {
      machine.setVMOption(name, value);
    }
  }

  private Footprint() {}
}
