package entrapment.registry.exports.slides;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/** Packs an Office file again, so that the same parts give the same bytes: a fixed order, no times, workbooks inside too. */
final class StableZip {

    private static final LocalDateTime NO_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

    /** Readers expect the list of parts first. */
    private static final Comparator<String> ORDER = Comparator.comparing((String name) -> !name.startsWith("[Content_"))
            .thenComparing(name -> !name.startsWith("_rels/"))
            .thenComparing(Comparator.naturalOrder());

    private StableZip() {}

    static byte[] of(byte[] file) throws IOException {
        Map<String, byte[]> parts = new TreeMap<>(ORDER);
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                byte[] part = zip.readAllBytes();
                parts.put(entry.getName(), entry.getName().endsWith(".xlsx") ? of(part) : part);
            }
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> part : parts.entrySet()) {
                ZipEntry entry = new ZipEntry(part.getKey());
                entry.setTimeLocal(NO_TIME);
                zip.putNextEntry(entry);
                zip.write(part.getValue());
            }
        }
        return bytes.toByteArray();
    }
}
