package cardproof.link.serial;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Lets a program drop its drives when it is told to stop: Ctrl-C (INT), {@code kill} (TERM), or its
 * terminal closed (HUP).
 *
 * <p>Reaches {@code sun.misc.Signal} by reflection. It is exported for programs by the module
 * {@code jdk.unsupported} (JEP 260), but the compiler warns of it in a way that cannot be switched
 * off, and here warnings are errors. Thread-safe.
 */
public final class Signals {
  private static final Logger LOG = LoggerFactory.getLogger(Signals.class);
  private static final List<String> STOPPING = List.of("INT", "TERM", "HUP");

  private Signals() {}

  /**
   * From now on hands each stopping signal's name to {@code handler}, on a thread of its own,
   * instead of ending the program; replaces an earlier handler. Opening a serial port does not undo
   * it. To call it again is harmless.
   *
   * @return the names that will be handed over. HUP is missing under {@code nohup} (which asks for
   *     it to be ignored) and on Windows; all are where the virtual machine has no such signals
   */
  public static Set<String> onStop(Consumer<String> handler) {
    Set<String> handled = new LinkedHashSet<>();
    for (String name : STOPPING) {
      if (handle(name, handler)) {
        handled.add(name);
      }
    }
    LOG.debug("signals handled: {}", handled);
    return handled;
  }

  private static boolean handle(String name, Consumer<String> handler) {
    try {
      Class<?> signalType = Class.forName("sun.misc.Signal");
      Class<?> handlerType = Class.forName("sun.misc.SignalHandler");
      Object signal = signalType.getConstructor(String.class).newInstance(name);
      Object ignore = handlerType.getField("SIG_IGN").get(null);
      Method handle = signalType.getMethod("handle", signalType, handlerType);
      Object before = handle.invoke(null, signal, proxy(handlerType, name, handler));
      return !ignore.equals(before);
    } catch (InvocationTargetException e) {
      // Unknown on this system, or used by the virtual machine (-Xrs): an IllegalArgumentException.
      LOG.debug("signal {} is not handled", name, e.getCause());
      return false;
    } catch (ReflectiveOperationException e) {
      LOG.debug("this virtual machine has no signals for programs", e);
      return false;
    }
  }

  private static Object proxy(Class<?> type, String name, Consumer<String> handler) {
    return Proxy.newProxyInstance(
        type.getClassLoader(),
        new Class<?>[] {type},
        (self, method, arguments) ->
            switch (method.getName()) {
              case "handle" -> {
                handler.accept(name);
                yield null;
              }
              case "equals" -> self == arguments[0];
              case "hashCode" -> System.identityHashCode(self);
              default -> "handler of " + name;
            });
  }
}
