package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

class SerialPortsTest {
  @Test
  @EnabledOnOs(OS.LINUX)
  void listsDevicesThatAreThereWithoutMakingAnyUp() {
    List<SerialPortInfo> ports = SerialPorts.list();
    System.out.println(ports);
    assertThat(ports)
        .allSatisfy(
            port -> {
              assertThat(Path.of(port.name())).exists().isAbsolute();
              assertThat(port.description()).isNotBlank();
              assertThat(port.vendorId().isPresent()).isEqualTo(port.productId().isPresent());
              assertThat(port.refusal()).isEqualTo(new DeviceFile(port.name()).refusal(List.of()));
            });
    assertThat(SerialPorts.names()).isSorted().doesNotHaveDuplicates();
  }
}
