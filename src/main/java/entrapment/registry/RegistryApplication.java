package entrapment.registry;

import java.time.Clock;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.context.annotation.Bean;

/** Starts the registry. */
@SpringBootApplication(proxyBeanMethods = false)
public class RegistryApplication {

    public static void main(String[] arguments) {
        SpringApplication.run(RegistryApplication.class, arguments);
    }

    @Bean
    Clock clock() {
        return Clock.systemUTC();
    }
}
