package entrapment.registry;

import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;

/** Where everybody arrives. */
@Controller
class HomePages {

    @GetMapping("/")
    String home() {
        return "home";
    }
}
