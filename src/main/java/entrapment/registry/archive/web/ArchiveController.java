package entrapment.registry.archive.web;

import entrapment.registry.access.Viewer;
import entrapment.registry.archive.Archive;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
class ArchiveController {

    private static final String ZIP = "application/zip";

    private final Archive archive;

    ArchiveController(Archive archive) {
        this.archive = archive;
    }

    @GetMapping(path = "/api/archive", produces = ZIP)
    void archive(HttpServletResponse response, @AuthenticationPrincipal Viewer viewer) throws IOException {
        write(archive, response, viewer);
    }

    /** The whole registry as a file, for the steward alone. */
    static void write(Archive archive, HttpServletResponse response, Viewer viewer) throws IOException {
        viewer.requireSteward();
        response.setContentType(ZIP);
        response.setHeader(
                HttpHeaders.CONTENT_DISPOSITION,
                ContentDisposition.attachment()
                        .filename("registry-archive.zip")
                        .build()
                        .toString());
        archive.write(response.getOutputStream(), viewer);
    }
}
