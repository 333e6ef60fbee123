package entrapment.registry.releases.web;

import entrapment.registry.exports.NumberText;
import entrapment.registry.releases.ReleaseView;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The figures of a release laid out as they are read: incidence by device class and year, harm by device class.
 *
 * @param years columns of the first table
 * @param harms columns of the second
 */
record ReleaseTables(List<Integer> years, List<String> harms, List<Incidence> incidence, List<Harmed> harm) {

    private static final String ANY = "any";

    /**
     * A device class with its counts for each year, then for all years together.
     *
     * @param deviceClass label; null for all device classes together
     */
    record Incidence(@Nullable String deviceClass, List<Cell> cells) {}

    /** Counts as they are printed, {@code •} where hidden. */
    record Cell(String events, String uses) {}

    /** A device class with its entrapments by degree of harm. */
    record Harmed(@Nullable String deviceClass, List<String> cells) {}

    static ReleaseTables of(ReleaseView release) {
        List<Integer> years = release.years();
        List<Incidence> incidence = new ArrayList<>();
        List<Harmed> harm = new ArrayList<>();
        for (String code : Stream.concat(Stream.of(DeviceClass.values()).map(Code::code), Stream.of(ANY))
                .toList()) {
            List<Cell> cells = new ArrayList<>();
            years.forEach(year -> cells.add(cell(release, code, year, year)));
            if (years.size() > 1) {
                cells.add(cell(release, code, years.get(0), years.get(years.size() - 1)));
            }
            String label = label(code);
            incidence.add(new Incidence(label, cells));
            harm.add(new Harmed(
                    label,
                    Stream.of(Harm.values())
                            .map(degree -> figure(
                                    release, "events", code, degree.code(), years.get(0), years.get(years.size() - 1)))
                            .toList()));
        }
        return new ReleaseTables(
                years, Stream.of(Harm.values()).map(Code::label).toList(), incidence, harm);
    }

    private static @Nullable String label(String code) {
        return Code.of(DeviceClass.class, code).map(Code::label).orElse(null);
    }

    private static Cell cell(ReleaseView release, String deviceClass, int first, int last) {
        return new Cell(
                figure(release, "events", deviceClass, ANY, first, last),
                figure(release, "uses", deviceClass, ANY, first, last));
    }

    private static String figure(
            ReleaseView release, String measure, String deviceClass, String harm, int first, int last) {
        return release.figures().stream()
                .filter(figure -> figure.measure().equals(measure)
                        && figure.deviceClass().equals(deviceClass)
                        && figure.harm().equals(harm)
                        && figure.firstYear() == first
                        && figure.lastYear() == last)
                .map(ReleaseView.Figure::value)
                .map(value -> value == null ? NumberText.SUPPRESSED : NumberText.count(value))
                .findFirst()
                .orElse(NumberText.SUPPRESSED);
    }
}
