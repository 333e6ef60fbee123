package planted.asking;

import java.time.Clock;
import java.time.Instant;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.web.bind.annotation.RestController;
import planted.answering.Answering;

/** Public controller, undeclared arrow, field injection, standard stream, the machine's clock. */
@RestController
public class Asking {

    @Autowired
    private Clock clock;

    public String ask() {
        System.out.println(clock);
        return Instant.now() + new Answering().answer();
    }
}
