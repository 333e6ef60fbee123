package entrapment.registry.exports.slides;

import java.util.List;
import java.util.stream.Stream;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTDLbl;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTDLbls;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTTitle;
import org.openxmlformats.schemas.drawingml.x2006.chart.STDLblPos;
import org.openxmlformats.schemas.drawingml.x2006.main.CTRegularTextRun;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextBody;
import org.openxmlformats.schemas.drawingml.x2006.main.CTTextCharacterProperties;
import org.openxmlformats.schemas.drawingml.x2006.main.STTextAlignType;
import org.openxmlformats.schemas.drawingml.x2006.main.STTextWrappingType;

/** Writes text into a chart: numbers and title of an axis, legend, and labels of points. Sizes are points. */
final class ChartText {

    /** Of the numbers and the title of an axis. */
    static final int AXIS_SIZE = 11;

    /** Keeps a text off what it stands beside; an ordinary space at its end would be dropped. */
    private static final String SPACE = "\u00a0";

    private ChartText() {}

    static void title(CTTitle title, String text, String ink) {
        rich(title.addNewTx().addNewRich(), List.of(text), AXIS_SIZE, ink, STDLblPos.CTR);
        title.addNewOverlay().setVal(false);
    }

    /** Gives points a text of their own beside them; where the text is empty, none. */
    static void labels(CTDLbls labels, List<String> texts, STDLblPos.Enum position, double size, String ink) {
        for (int point = 0; point < texts.size(); point++) {
            if (!texts.get(point).isEmpty()) {
                CTDLbl label = labels.addNewDLbl();
                label.addNewIdx().setVal(point);
                rich(label.addNewTx().addNewRich(), lines(texts.get(point), position), size, ink, position);
                label.addNewDLblPos().setVal(position);
                label.addNewShowLegendKey().setVal(false);
                label.addNewShowVal().setVal(true);
                label.addNewShowCatName().setVal(false);
                label.addNewShowSerName().setVal(false);
                label.addNewShowPercent().setVal(false);
                label.addNewShowBubbleSize().setVal(false);
            }
        }
        labels.addNewShowLegendKey().setVal(false);
        labels.addNewShowVal().setVal(false);
        labels.addNewShowCatName().setVal(false);
        labels.addNewShowSerName().setVal(false);
        labels.addNewShowPercent().setVal(false);
        labels.addNewShowBubbleSize().setVal(false);
    }

    private static List<String> lines(String text, STDLblPos.Enum side) {
        String before = side == STDLblPos.R ? SPACE + SPACE : "";
        String after = side == STDLblPos.L ? SPACE + SPACE : "";
        return Stream.of(text.split("\n", -1))
                .map(line -> before + line + after)
                .toList();
    }

    private static void rich(CTTextBody body, List<String> lines, double size, String ink, STDLblPos.Enum side) {
        body.addNewBodyPr().setWrap(STTextWrappingType.NONE);
        for (String line : lines) {
            var paragraph = body.addNewP();
            var properties = paragraph.addNewPPr();
            properties.setAlgn(
                    side == STDLblPos.L
                            ? STTextAlignType.R
                            : side == STDLblPos.R ? STTextAlignType.L : STTextAlignType.CTR);
            style(properties.addNewDefRPr(), size, ink);
            CTRegularTextRun run = paragraph.addNewR();
            style(run.addNewRPr(), size, ink);
            run.setT(line);
        }
    }

    /** How the numbers of an axis or the names of a legend are written. */
    static void plain(CTTextBody body, double size, String ink) {
        if (body.getBodyPr() == null) {
            body.addNewBodyPr();
        }
        var paragraph = body.sizeOfPArray() > 0 ? body.getPArray(0) : body.addNewP();
        style(paragraph.addNewPPr().addNewDefRPr(), size, ink);
        paragraph.addNewEndParaRPr().setLang("en-GB");
    }

    private static void style(CTTextCharacterProperties text, double size, String ink) {
        text.setSz((int) Math.round(size * 100));
        text.setB(false);
        text.addNewSolidFill().addNewSrgbClr().setVal(Palette.bytes(ink));
    }
}
