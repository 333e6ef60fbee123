package entrapment.registry.archive.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.archive.Archive;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;

/** The archive on a page of the network. */
@Controller
@RequestMapping("/network/archive")
class ArchivePages {

    private final Archive archive;

    ArchivePages(Archive archive) {
        this.archive = archive;
    }

    @GetMapping
    String page(@AuthenticationPrincipal Viewer viewer) {
        viewer.requireSteward();
        return "archive/archive";
    }

    @GetMapping("/registry-archive.zip")
    void download(HttpServletResponse response, @AuthenticationPrincipal Viewer viewer) throws IOException {
        ArchiveController.write(archive, response, viewer);
    }
}
